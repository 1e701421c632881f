// What every page has: forms that swap their changed part, typing that survives, word of what is not saved, news.
import "../forms/swaps.js";
import "../forms/turns.js";
import "../forms/saving.js";
import { keepDrafts } from "../forms/drafts.js";
import { follow } from "../forms/news.js";

document.documentElement.classList.add("js");
keepDrafts();
follow();
