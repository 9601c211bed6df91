import { sketch, resolve } from "./packages/netlist/src/index.ts";
import { layout, scene, drawingOf } from "./packages/drawing/src/index.ts";
const l = resolve(sketch({parts:{},wires:[]}));
const p = layout(l); console.log(JSON.stringify(scene(l,p,{}, {width:1400,height:900})).slice(0,200));
const l2 = resolve(sketch({parts:{"K1 relay":{}, "XE1 ground-point":{}, "XS1 splice":{}},wires:[]}));
const p2 = layout(l2,{drawing:{places:{K1:{at:[10,10]}}}}); console.log(JSON.stringify(drawingOf(p2)));
