"""Parts by form and the job file as text, side by side and always in step."""

from fitwright.web.page import Call, Page
from fitwright.web.pages.file.answers import check, file, picture, save, text, words
from fitwright.web.pages.file.part_answers import add, change_part, parts, remove

PAGE = Page(
    "file",
    (
        Call("GET", "/jobs/{job}/file", file, "parts by form, and the job file as text"),
        Call("POST", "/jobs/{job}/file", save, "save the text of the job file", ("revision", "text")),
        Call("GET", "/jobs/{job}/file/picture", picture, "the piece beside its parts, or why it cannot be built"),
        Call("GET", "/jobs/{job}/file/text", text, "the text of the job file", gives="text/plain"),
        Call("POST", "/jobs/{job}/file/check", check, "what is wrong in a text", ("text",), gives="application/json"),
        Call("GET", "/jobs/{job}/file/words", words, "words to complete with", gives="application/json"),
        Call("GET", "/jobs/{job}/parts", parts, "the parts, and the form of one"),
        Call("POST", "/jobs/{job}/parts/add", add, "add a part", ("revision", "name", "kind")),
        Call("POST", "/jobs/{job}/parts/change", change_part, "change a part", ("revision", "part")),
        Call("POST", "/jobs/{job}/parts/remove", remove, "remove a part", ("revision", "part")),
    ),
    tab="Parts and text",
    at="/file",
    order=30,
)
