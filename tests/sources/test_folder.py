"""What a content folder gives, and what it refuses."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from manualgen.sources import TEXT_LIMIT, Folder, SourceError, resolved


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    content = tmp_path / "content"
    (content / "acids").mkdir(parents=True)
    (content / "acids" / "vinegar.md").write_text("vinegar", encoding="utf-8")
    (content / "manual.yaml").write_text("title: T", encoding="utf-8")
    return content


def test_files_are_listed_by_path_with_forward_slashes(folder: Path) -> None:
    assert Folder(folder).files() == ("acids/vinegar.md", "manual.yaml")


def test_hidden_files_and_what_stands_in_hidden_folders_are_not_there(
    folder: Path,
) -> None:
    (folder / ".secret.md").write_text("x", encoding="utf-8")
    (folder / ".git").mkdir()
    (folder / ".git" / "config").write_text("x", encoding="utf-8")
    source = Folder(folder)
    assert source.files() == ("acids/vinegar.md", "manual.yaml")
    assert not source.exists(".git/config")
    with pytest.raises(SourceError, match="hidden"):
        source.read(".secret.md")


def test_a_file_is_read_as_the_bytes_that_it_has(folder: Path) -> None:
    assert Folder(folder).read("acids/vinegar.md") == b"vinegar"


def test_the_name_is_what_the_author_typed(folder: Path) -> None:
    assert Folder(Path("content")).name == "content"
    assert Folder(Path("content/")).name == "content"
    assert Folder(folder, name="content").name == "content"


@pytest.mark.parametrize(
    "path",
    [
        "../outside.txt",
        "acids/../../outside.txt",
        "/etc/hostname",
        "acids/../manual.yaml",
        "acids\\vinegar.md",
        "nul\0.md",
        "",
        ".",
    ],
)
def test_no_path_leads_out_or_round(folder: Path, path: str) -> None:
    (folder.parent / "outside.txt").write_text("outside", encoding="utf-8")
    source = Folder(folder)
    assert not source.exists(path)
    with pytest.raises(SourceError):
        source.read(path)


def test_a_link_that_leads_out_is_listed_and_refused(folder: Path) -> None:
    (folder.parent / "outside.txt").write_text("outside", encoding="utf-8")
    (folder / "escape.md").symlink_to(folder.parent / "outside.txt")
    source = Folder(folder)
    assert "escape.md" in source.files()
    assert not source.exists("escape.md")
    with pytest.raises(SourceError, match="leads out"):
        source.read("escape.md")


def test_a_linked_folder_that_leads_out_is_refused_too(folder: Path) -> None:
    outside = folder.parent / "outside"
    outside.mkdir()
    (outside / "a.png").write_bytes(b"picture")
    (folder / "images").symlink_to(outside)
    source = Folder(folder)
    assert not source.exists("images/a.png")
    with pytest.raises(SourceError, match="leads out"):
        source.read("images/a.png")


def test_a_link_that_stays_inside_is_read(folder: Path) -> None:
    (folder / "copy.md").symlink_to(folder / "acids" / "vinegar.md")
    assert Folder(folder).read("copy.md") == b"vinegar"


def test_links_in_a_ring_end(folder: Path) -> None:
    (folder / "ring").symlink_to(folder)
    (folder / "self.md").symlink_to(folder / "self.md")
    source = Folder(folder)
    assert "acids/vinegar.md" in source.files()
    with pytest.raises(SourceError):
        source.read("self.md")


def test_fifty_megabytes_are_refused_with_both_sizes(folder: Path) -> None:
    with (folder / "huge.md").open("wb") as file:
        file.truncate(50_000_000)
    message = r"has 50\.0 MB, more than the 1\.0 MB that are read"
    with pytest.raises(SourceError, match=message):
        Folder(folder).read("huge.md")


def test_a_file_of_the_limit_is_read_and_one_byte_more_is_not(folder: Path) -> None:
    source = Folder(folder)
    (folder / "full.md").write_bytes(b"a" * TEXT_LIMIT)
    assert len(source.read("full.md")) == TEXT_LIMIT
    with pytest.raises(SourceError):
        source.read("acids/vinegar.md", limit=6)


def test_a_missing_file_is_told_from_one_that_cannot_be_read(folder: Path) -> None:
    with pytest.raises(SourceError) as missing:
        Folder(folder).read("nowhere.md")
    assert missing.value.missing
    with pytest.raises(SourceError) as is_folder:
        Folder(folder).read("acids")
    assert not is_folder.value.missing


def test_a_pipe_does_not_hold_the_build_up(folder: Path) -> None:
    os.mkfifo(folder / "pipe.md")
    with pytest.raises(SourceError, match="no ordinary file"):
        Folder(folder).read("pipe.md")


def test_each_way_of_failing_is_said_in_words(folder: Path) -> None:
    source = Folder(folder)
    for name in ("acids", "a" * 300, "acids/vinegar.md/x"):
        with pytest.raises(SourceError) as failed:
            source.read(name)
        assert failed.value.message
        assert "Errno" not in failed.value.message


def test_a_folder_that_is_not_there_has_no_files(tmp_path: Path) -> None:
    source = Folder(tmp_path / "nowhere")
    assert source.files() == ()
    assert not source.exists("manual.yaml")


def test_paths_are_seen_from_the_file_that_names_them() -> None:
    assert resolved("acids/vinegar.md", "images/a.png") == "acids/images/a.png"
    assert resolved("acids/vinegar.md", "../images/a.png") == "images/a.png"
    assert resolved("vinegar.md", "../a.png") is None
    assert resolved("acids/vinegar.md", "/a.png") is None
