"""A content folder as git keeps it, in all the ways in which a repository can lie."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from manualgen.sources.revision import Revision, RevisionError
from manualgen.sources.source import SourceError


def git(where: Path, *words: str) -> str:
    identity = ("-c", "user.name=T", "-c", "user.email=t@example.org")
    local = ("-c", "protocol.file.allow=always")
    done = subprocess.run(
        ["git", *identity, *local, *words],
        cwd=where,
        check=True,
        capture_output=True,
        text=True,
    )
    return done.stdout.strip()


def commit(where: Path) -> str:
    git(where, "add", "-A")
    git(where, "commit", "-q", "--allow-empty", "-m", "A revision")
    return git(where, "rev-parse", "HEAD")


@pytest.fixture
def top(tmp_path: Path) -> Path:
    """A repository whose folder's name has a blank and is not all ASCII."""
    folder = tmp_path / "école d’été"
    (folder / "mes expériences" / "acides").mkdir(parents=True)
    git(folder, "init", "-q", "-b", "main")
    (folder / "mes expériences" / "acides" / "un acide.md").write_bytes(b"eau\n")
    (folder / "mes expériences" / ".hidden.md").write_bytes(b"no\n")
    (folder / "outside.md").write_bytes(b"no\n")
    commit(folder)
    return folder


def test_files_are_found_by_their_paths_from_the_folder(top: Path) -> None:
    revision = Revision(top / "mes expériences", "main")
    assert revision.files() == ("acides/un acide.md",)
    assert revision.read("acides/un acide.md") == b"eau\n"
    assert revision.exists("acides/un acide.md")


def test_a_path_that_leads_out_is_refused(top: Path) -> None:
    revision = Revision(top / "mes expériences", "main")
    with pytest.raises(SourceError, match="leads out"):
        revision.read("../outside.md")


def test_a_folder_that_was_not_there_yet_is_empty(top: Path) -> None:
    (top / "content").mkdir()
    assert Revision(top / "content", "main").files() == ()


def test_a_folder_that_is_there_no_more_is_read_all_the_same(top: Path) -> None:
    (top / "mes expériences" / "acides" / "un acide.md").unlink()
    (top / "mes expériences" / ".hidden.md").unlink()
    (top / "mes expériences" / "acides").rmdir()
    (top / "mes expériences").rmdir()
    revision = Revision(top / "mes expériences", "main")
    assert revision.read("acides/un acide.md") == b"eau\n"


def test_a_bare_clone_serves(top: Path, tmp_path: Path) -> None:
    bare = tmp_path / "bare.git"
    git(tmp_path, "clone", "-q", "--bare", str(top), str(bare))
    revision = Revision(bare / "mes expériences", "main")
    assert revision.files() == ("acides/un acide.md",)


def test_a_link_is_followed_inside_the_folder_and_nowhere_else(top: Path) -> None:
    content = top / "mes expériences"
    (content / "same.md").symlink_to("acides/un acide.md")
    (content / "out.md").symlink_to("../outside.md")
    (content / "round.md").symlink_to("round.md")
    (content / "far.md").symlink_to("/etc/hostname")
    commit(top)
    revision = Revision(content, "main")
    assert revision.files() == ("acides/un acide.md", "same.md")
    assert revision.read("same.md") == b"eau\n"


def test_a_submodule_is_read_where_it_is_checked_out(top: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    other.mkdir()
    git(other, "init", "-q")
    (other / "shared.md").write_bytes(b"shared\n")
    commit(other)
    content = top / "mes expériences"
    git(content, "submodule", "add", "-q", str(other), "shared")
    commit(top)
    assert Revision(content, "main").read("shared/shared.md") == b"shared\n"
    bare = tmp_path / "bare.git"
    git(tmp_path, "clone", "-q", "--bare", str(top), str(bare))
    assert not Revision(bare / "mes expériences", "main").exists("shared/shared.md")


def test_a_shallow_clone_says_how_to_get_the_rest(top: Path, tmp_path: Path) -> None:
    commit(top)
    shallow = tmp_path / "shallow"
    git(tmp_path, "clone", "-q", "--depth", "1", top.as_uri(), str(shallow))
    content = shallow / "mes expériences"
    assert Revision(content, "HEAD").files() == ("acides/un acide.md",)
    with pytest.raises(RevisionError, match="git fetch --unshallow"):
        Revision(content, "HEAD~1")


def test_a_huge_file_of_old_is_refused_unread(top: Path) -> None:
    content = top / "mes expériences"
    (content / "huge.md").write_bytes(b"x" * 1_500_000)
    commit(top)
    with pytest.raises(SourceError, match=r"1\.5 MB"):
        Revision(content, "main").read("huge.md")


def test_an_object_that_is_lost_is_a_file_that_cannot_be_read(top: Path) -> None:
    name = git(top, "rev-parse", "main:mes expériences/acides/un acide.md")
    (top / ".git" / "objects" / name[:2] / name[2:]).unlink()
    revision = Revision(top / "mes expériences", "main")
    with pytest.raises(SourceError, match="cannot be read from git"):
        revision.read("acides/un acide.md")


@pytest.mark.parametrize("name", ["nowhere", "-x", "main~9", "", "main:outside.md"])
def test_what_is_no_revision_is_said_to_be_none(top: Path, name: str) -> None:
    with pytest.raises(RevisionError, match="revision"):
        Revision(top / "mes expériences", name)


def test_a_folder_outside_any_repository_is_said_to_be_there(tmp_path: Path) -> None:
    with pytest.raises(RevisionError, match="not a git repository"):
        Revision(tmp_path, "HEAD")


def test_neither_the_working_tree_nor_the_index_is_touched(top: Path) -> None:
    (top / "mes expériences" / "acides" / "un acide.md").write_bytes(b"tea\n")
    git(top, "add", "-A")
    (top / "mes expériences" / "new.md").write_bytes(b"new\n")

    def state() -> dict[str, bytes]:
        return {str(p): p.read_bytes() for p in top.rglob("*") if p.is_file()}

    before = state()
    revision = Revision(top / "mes expériences", "HEAD")
    assert revision.read("acides/un acide.md") == b"eau\n"
    assert state() == before
