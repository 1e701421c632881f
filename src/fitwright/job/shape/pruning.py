"""A wrong tree cut down to the part of it that has a good shape, so that the rest can be worked out all the same."""

from __future__ import annotations

from pydantic_core import ErrorDetails

from fitwright.job.written import Listed, Mapped, Node, Written

Steps = list[tuple[Mapped | Listed, str | int]]

STAND_INS: dict[tuple[str, ...], str | None] = {
    ("job",): None,
    ("job", "name"): "job",
    ("job", "unit"): "mm",
    ("stock",): None,
    ("parts",): None,
}
"""What stands in for what every file needs: a text, or an empty mapping; never seen, since the file is refused."""


def copied(node: Node) -> Node:
    """A copy whose lists and mappings can be cut; the values in it are shared."""
    if isinstance(node, Mapped):
        mapping = Mapped(node.where, node.place)
        mapping.keys_at = dict(node.keys_at)
        mapping.update({key: copied(value) for key, value in node.items()})
        return mapping
    if isinstance(node, Listed):
        listed = Listed(node.where, node.place)
        listed.extend(copied(item) for item in node)
        return listed
    return node


def cut(root: Mapped, errors: list[ErrorDetails]) -> None:
    """Take out of the tree what each error is about; within a list, the whole list, but for the joints."""
    joints = {int(error["loc"][1]) for error in errors if error["loc"][0] == "joints" and len(error["loc"]) > 1}
    if isinstance(root.get("joints"), Listed):
        root["joints"][:] = [joint for number, joint in enumerate(root["joints"]) if number not in joints]
    elsewhere = [error for error in errors if error["loc"][0] != "joints" or len(error["loc"]) == 1]
    # Found before any is cut: what is left of a location once its part is gone would be the section itself.
    wrong = [_steps(root, error["loc"]) for error in elsewhere if not _stand_in(root, error)]
    for steps in wrong:
        _cut_one(steps)


def _stand_in(root: Mapped, error: ErrorDetails) -> bool:
    names = tuple(str(step) for step in error["loc"])
    if error["type"] != "missing" or names not in STAND_INS:
        return False
    owner = root if len(names) == 1 else root[names[0]]
    text = STAND_INS[names]
    owner[names[-1]] = Mapped(names[-1], root.place) if text is None else Written(text)
    owner.keys_at[names[-1]] = root.place
    return True


def _steps(root: Mapped, location: tuple[int | str, ...]) -> Steps:
    """The steps of a location that the tree has; branch tags are stepped over."""
    found: Steps = []
    node: Node = root
    for step in location:
        if isinstance(node, Mapped) and step in node:
            found.append((node, step))
            node = node[str(step)]
        elif isinstance(node, Listed) and isinstance(step, int) and step < len(node):
            found.append((node, step))
            node = node[step]
    return found


def _cut_one(steps: Steps) -> None:
    """Cut the innermost key on the way; a list is not left with fewer items than were written."""
    for owner, step in reversed(steps):
        if isinstance(owner, Mapped):
            owner.pop(str(step), None)
            return
