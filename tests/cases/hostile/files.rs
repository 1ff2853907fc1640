//! Files that lead elsewhere: circles, ways out of the project, links,
//! folders where files should be.

use super::{ended, folder, says, snell};
use snell_tests::Ran;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

#[test]
fn files_that_use_one_another_in_a_circle() {
    let folder = folder();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    write(
        "a.rig",
        "use \"b.rig\"\n\nrig a\n  tippet 1 m of theirs\n\nspool ours\n  size 6X\n  material fluoro\n",
    );
    write(
        "b.rig",
        "use \"a.rig\"\nuse \"b.rig\"\n\nrig b\n  tippet 1 m of ours\n\nspool theirs\n  size 5X\n  material fluoro\n",
    );
    let (ran, _) = ended(snell(folder.path(), &["check", "a.rig"]));
    assert_eq!(ran.status, Some(0), "a circle of uses is plain: {}", ran.told());
    let (ran, _) = ended(snell(folder.path(), &["show", "a.rig:a", "--form", "json"]));
    assert!(ran.out.contains("1 m"), "{}", ran.told());
}

/// A folder with a project in it and a file outside of the project.
fn project() -> TempDir {
    let folder = folder();
    fs::create_dir_all(folder.path().join("project/.git")).unwrap();
    fs::create_dir_all(folder.path().join("project/inner")).unwrap();
    fs::write(folder.path().join("outside.rig"), "fly secret\n  hook #14\n").unwrap();
    folder
}

fn used(folder: &Path, path: &str) -> Ran {
    fs::write(
        folder.join("project/asked.rig"),
        format!("use \"{path}\"\n\nrig a\n  tippet 1 m of 6X\n  point secret\n"),
    )
    .unwrap();
    ended(snell(&folder.join("project"), &["check", "asked.rig"])).0
}

#[test]
fn a_use_that_leaves_the_folder() {
    let folder = project();
    let absolute = folder.path().join("outside.rig");
    let paths = [
        "../outside.rig",
        "inner/../../outside.rig",
        "./../outside.rig",
        "..\\outside.rig",
        "/etc/passwd",
        "C:/outside.rig",
        "",
    ];
    for path in paths.into_iter().chain(absolute.to_str()) {
        let ran = used(folder.path(), path);
        says(&ran, 1, "cannot be used");
        assert!(
            ran.told().contains("secret"),
            "what it would have brought is missing: {}",
            ran.told()
        );
    }
}

#[cfg(unix)]
#[test]
fn a_use_that_follows_a_link_out() {
    let folder = project();
    let link = |to: &Path, name: &str| {
        std::os::unix::fs::symlink(to, folder.path().join("project").join(name)).unwrap()
    };
    link(&folder.path().join("outside.rig"), "link.rig");
    link(folder.path(), "up");
    link(Path::new("loop.rig"), "loop.rig");
    for path in ["link.rig", "up/outside.rig"] {
        says(
            &used(folder.path(), path),
            1,
            "cannot be used: a link leads it out of the project folder",
        );
    }
    says(&used(folder.path(), "loop.rig"), 1, "cannot be used");
}

#[test]
fn a_use_of_what_is_no_file() {
    let folder = project();
    fs::create_dir(folder.path().join("project/folder.rig")).unwrap();
    fs::write(
        folder.path().join("project/latin.rig"),
        b"fly secret\n  hook #14 // gr\xFC\xDFe\n",
    )
    .unwrap();
    fs::write(
        folder.path().join("project/page.md"),
        "```rig alone\nfly secret\n  hook #14\n```\n",
    )
    .unwrap();
    for path in [
        "folder.rig",
        "inner",
        ".",
        "nowhere.rig",
        "latin.rig",
        "page.md",
        "outside.rig\0",
        "*.rig",
    ] {
        says(&used(folder.path(), path), 1, "cannot be used");
    }
}

#[test]
fn a_file_that_is_a_folder() {
    let folder = folder();
    fs::create_dir(folder.path().join("trap.rig")).unwrap();
    fs::write(folder.path().join("sound.rig"), "rig a\n  tippet 1 m of 6X\n").unwrap();
    let (ran, _) = ended(snell(folder.path(), &["check", "."]));
    assert_eq!(
        ran.status,
        Some(0),
        "a folder of that name is only a folder: {}",
        ran.told()
    );
    ended(snell(folder.path(), &["check", "trap.rig"]));
    let (ran, _) = ended(snell(folder.path(), &["check", "sound.rig/inner.rig"]));
    assert_eq!(ran.status, Some(2), "{}", ran.told());
    let (ran, _) = ended(snell(folder.path(), &["check", "nowhere.rig"]));
    says(&ran, 2, "nowhere.rig");
}

#[test]
fn folders_a_hundred_deep() {
    let folder = folder();
    let inner: String = (0..100).map(|_| "deep/").collect();
    fs::create_dir_all(folder.path().join(&inner)).unwrap();
    let text = "rig a\n  tippet 1 m of 6X\n  point #14\n  expect flies at least 2\n";
    fs::write(folder.path().join(&inner).join("asked.rig"), text).unwrap();
    let (ran, _) = ended(snell(folder.path(), &["check", "."]));
    says(&ran, 1, "asked.rig");
    let far = "x/".repeat(5000);
    fs::write(folder.path().join("asked.rig"), format!("use \"{far}y.rig\"\n")).unwrap();
    says(
        &ended(snell(folder.path(), &["check", "asked.rig"])).0,
        1,
        "cannot be used",
    );
}
