// The address names the example that is open: #loom=NAME. Files have no address.

/** The example that the address asks for. */
export const askedFor = (): string | undefined => /^#loom=([\w-]+)$/.exec(window.location.hash)?.[1];

export const addressOf = (id: string): string => `#loom=${id}`;

/** Takes the example out of the address, without leaving the page. */
export function clearAddress(): void {
  if (window.location.hash !== "")
    window.history.pushState(null, "", window.location.pathname + window.location.search);
}
