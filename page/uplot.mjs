export { default } from "uplot";
