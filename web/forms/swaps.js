// htmx, under the names that the other modules use.
import htmx from "htmx.org";

window.htmx = htmx;
export default htmx;
