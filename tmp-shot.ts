import { launch, openPage, DESK, drawn, proved } from "./test/browser/page.ts";
const b = await launch();
const { page, trouble } = await openPage(b, DESK);
page.setDefaultTimeout(8000);
const shot = (n: string) => page.screenshot({ path: `/tmp/s-${n}.png` });
await shot("first");
await page.getByText("blank", { exact: false }).first().click();
await page.waitForTimeout(800);
await shot("blank");
const sheet = (await page.locator(".sheet").boundingBox())!;
const drag = async (name: string, x: number, y: number) => {
  const tab = page.getByRole("tab", { name: "Shelf" });
  if ((await tab.getAttribute("aria-selected")) !== "true") await tab.click();
  const item = page.getByRole("option", { name }).or(page.getByRole("button", { name })).first();
  await item.scrollIntoViewIfNeeded();
  const r = (await item.boundingBox())!;
  await page.mouse.move(r.x + r.width / 2, r.y + 20);
  await page.mouse.down();
  await page.mouse.move(sheet.x + x - 20, sheet.y + y - 20, { steps: 4 });
  await page.mouse.move(sheet.x + x, sheet.y + y, { steps: 2 });
  await shot("carry");
  await page.mouse.up();
  await page.waitForTimeout(150);
};
try {
await drag("Battery", 200, 200);
await drag("Relay", 400, 200);
await drag("Lamp", 600, 200);
await drag("Key", 300, 420);
await drag("Controller", 600, 450);
await shot("placed");
} catch (e) { console.log(String(e).slice(0, 600)); await shot("err"); }
console.log(trouble);
await b.close();
