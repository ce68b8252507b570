export type { BodyRef, Cell, Contact, Exchange, Link, Mesh, Resolution } from "./mesh.ts";
