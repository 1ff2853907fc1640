//! Nothing that a person wrote is lost: between markers, in pictures, and when the program is ended in the middle.

use super::{USE, folder, plain, run};
use snell_tests::{Build, Ran, Run};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// Whatever stands between two markers and is not snell's stays there to the byte, and everything else is filled.
#[test]
fn what_somebody_wrote_between_markers_is_kept() {
    let folder = folder();
    let path = folder.path().join("a.md");
    let fill = || run(folder.path(), &["fill", "a.md"]);
    let theirs = [
        "A paragraph of mine.",
        "- a list\n- of mine",
        "![the pool](pool.jpg)",
        "```sh\nls\n```",
        "## A heading",
        "<<<<<<< ours\n5 m\n=======\n6 m\n>>>>>>> theirs",
        "| part | length |\n| --- | --- |\n| mine | 5 m |",
        "<!-- a remark -->",
    ];
    for (theirs, marks) in theirs
        .iter()
        .flat_map(|theirs| [(theirs, "end"), (theirs, "end 0badc0de")])
    {
        let page = format!(
            "{USE}<!-- rig: parts of low -->\n\n{theirs}\n\n<!-- rig: {marks} -->\n\nIt is <!-- rig: total of low --><!-- rig: end -->.\n"
        );
        fs::write(&path, &page).unwrap();
        let ran = fill();
        assert_eq!(ran.status, Some(1), "{}", ran.told());
        assert!(
            ran.err.contains("marker-holds-text") && ran.err.contains("the rig says: | part"),
            "{}",
            ran.err
        );
        let filled = plain(&fs::read_to_string(&path).unwrap());
        assert_eq!(
            filled,
            plain(&page).replace("--><!--", "-->10 ft 7 in<!--"),
            "{theirs}"
        );
    }
}

/// A page that was filled, then written over by hand in each of its bytes: nothing of that is lost.
#[test]
fn a_filled_page_that_was_edited_is_kept() {
    let folder = folder();
    let path = folder.path().join("a.md");
    fs::write(
        &path,
        format!("{USE}It is <!-- rig: total of low --><!-- rig: end -->.\n\n<!-- rig: parts of low -->\n<!-- rig: end -->\n"),
    )
    .unwrap();
    assert_eq!(run(folder.path(), &["fill", "a.md"]).status, Some(0));
    let filled = fs::read_to_string(&path).unwrap();
    for (from, to) in [
        ("10 ft 7 in", "10 ft 7 in or so"),
        ("| upper", "| upper tippet"),
        ("| butt", "mine\n| butt"),
        ("rig: end ", "rig: end of it "),
        ("<!-- rig: end", "<!-- rig end"),
        ("-->10", "->10"),
        (
            "<!-- rig: end",
            "<<<<<<< ours\n<!-- rig: end 00000000 -->\n=======\n<!-- rig: end",
        ),
    ] {
        let edited = filled.replacen(from, to, 1);
        assert_ne!(edited, filled, "{from}");
        fs::write(&path, &edited).unwrap();
        let ran = run(folder.path(), &["fill", "a.md"]);
        assert_eq!(ran.status, Some(1), "{from}: {}", ran.told());
        assert_eq!(fs::read_to_string(&path).unwrap(), edited, "{from}");
        let checked = run(folder.path(), &["check", "a.md"]);
        assert_eq!(checked.status, Some(1), "{from}: {}", checked.told());
    }
    // What a program that lays out Markdown changes is no edit, and a figure that was mended by hand is right.
    for (from, to) in [("| ", "|  "), ("10 ft 7 in", "10 ft\n7 in"), ("----", "---")] {
        let laid_out = filled.replace(from, to);
        assert_ne!(laid_out, filled, "{from}");
        fs::write(&path, &laid_out).unwrap();
        let ran = run(folder.path(), &["fill", "--check", "a.md"]);
        assert_eq!(ran.status, Some(0), "{from}: {}", ran.told());
    }
}

/// A page that was filled before there were checksums gets them, where what stands there is what the rig says or a plain
/// figure.
#[test]
fn a_page_of_the_old_form_is_taken_over() {
    let folder = folder();
    let path = folder.path().join("a.md");
    let page = format!(
        "{USE}It is <!-- rig: total of low --><!-- rig: end -->.\n\n<!-- rig: parts of low -->\n<!-- rig: end -->\n"
    );
    fs::write(&path, page).unwrap();
    run(folder.path(), &["fill", "a.md"]);
    let filled = fs::read_to_string(&path).unwrap();
    let old = plain(&filled);
    fs::write(&path, &old).unwrap();
    assert_eq!(run(folder.path(), &["fill", "--check", "a.md"]).status, Some(0));
    assert_eq!(run(folder.path(), &["fill", "a.md"]).status, Some(0));
    assert_eq!(fs::read_to_string(&path).unwrap(), filled);
    fs::write(&path, old.replace("10 ft 7 in", "9 ft 7 in")).unwrap();
    assert_eq!(run(folder.path(), &["fill", "a.md"]).status, Some(0));
    assert_eq!(fs::read_to_string(&path).unwrap(), filled);
    // A picture stood under its title; under other words it is somebody's.
    let picture = |instead: &str| {
        format!("{USE}<!-- rig: draw low -->\n\n![{instead}](a-low.svg)\n\n<!-- rig: end -->\n")
    };
    for (instead, status) in [("low: a \\| b", Some(0)), ("the low rig", Some(1))] {
        fs::write(&path, picture(instead)).unwrap();
        assert_eq!(run(folder.path(), &["fill", "a.md"]).status, status);
        let kept = fs::read_to_string(&path).unwrap() == picture(instead);
        assert_eq!(kept, status == Some(1));
    }
}

#[test]
fn a_picture_of_somebody_else_is_left_alone() {
    let folder = folder();
    let page = format!("{USE}<!-- rig: draw low into mine.svg -->\n<!-- rig: end -->\n");
    fs::write(folder.path().join("a.md"), &page).unwrap();
    fs::write(folder.path().join("mine.svg"), "<svg>mine</svg>").unwrap();
    let ran = run(folder.path(), &["fill", "a.md"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("no picture of snell's"), "{}", ran.err);
    assert_eq!(
        fs::read_to_string(folder.path().join("mine.svg")).unwrap(),
        "<svg>mine</svg>"
    );
    assert_eq!(fs::read_to_string(folder.path().join("a.md")).unwrap(), page);
}

/// A page that is long to write, and what `fill` makes of it.
#[cfg(unix)]
fn long_page() -> (String, String) {
    let part = "It is <!-- rig: total of low --><!-- rig: end --> long, all in all, and no inch longer.\n\n";
    let old = format!("{USE}{}", part.repeat(400));
    let checksum = snell_article::checksum("10 ft 7 in");
    let new = old.replace(
        "--><!-- rig: end -->",
        &format!("-->10 ft 7 in<!-- rig: end {checksum} -->"),
    );
    (old, new)
}

/// The system ends a program that writes more into a file than it may, so each size ends it at another place of the
/// page.
#[cfg(unix)]
#[test]
fn whoever_ends_it_while_it_writes_finds_the_old_page() {
    let (old, new) = long_page();
    let mut ended = 0;
    // Of half a kibibyte. Source: POSIX.1-2017, `ulimit`.
    for blocks in (1..).map(|turn| turn * 7) {
        let folder = folder();
        let path = folder.path().join("a.md");
        fs::write(&path, &old).unwrap();
        let limited = format!("ulimit -c 0; ulimit -f {blocks}; exec \"$0\" fill a.md");
        let ran = shell(&limited, folder.path());
        let now = fs::read_to_string(&path).unwrap();
        match ran.status {
            Some(0) => {
                assert!(now == new, "a page of {} bytes", now.len());
                break;
            }
            _ => assert!(now == old, "{} bytes are left of the page", now.len()),
        }
        ended += 1;
    }
    assert!(ended > 3, "it was ended {ended} times");
}

/// A full disk is told, and nothing is left lying about.
#[cfg(unix)]
#[test]
fn a_page_that_does_not_fit_is_told_and_stays() {
    let (old, _) = long_page();
    let folder = folder();
    fs::write(folder.path().join("a.md"), &old).unwrap();
    let ran = shell("trap '' XFSZ; ulimit -f 8; exec \"$0\" fill a.md", folder.path());
    assert_eq!(ran.status, Some(2), "{}", ran.told());
    assert!(ran.err.contains("a.md"), "{}", ran.err);
    assert!(fs::read_to_string(folder.path().join("a.md")).unwrap() == old);
    assert_eq!(
        fs::read_dir(folder.path()).unwrap().count(),
        2,
        "the page and the rigs"
    );
}

/// However often somebody looks meanwhile, the page is the old one or the new one.
#[cfg(unix)]
#[test]
fn whoever_reads_while_it_writes_sees_a_whole_page() {
    let (old, new) = long_page();
    let folder = folder();
    let path = folder.path().join("a.md");
    fs::write(&path, &old).unwrap();
    let mut child = Command::new(Build::AsTests.program())
        .args(["fill", "a.md"])
        .current_dir(folder.path())
        .stdout(Stdio::null())
        .spawn()
        .unwrap();
    let status = loop {
        let now = fs::read_to_string(&path).unwrap();
        assert!(now == old || now == new, "a page of {} bytes", now.len());
        if let Some(status) = child.try_wait().unwrap() {
            break status;
        }
    };
    assert!(status.success());
    assert!(fs::read_to_string(&path).unwrap() == new);
}

/// Runs a line of a shell, in which `$0` is the program.
#[cfg(unix)]
fn shell(line: &str, folder: &Path) -> Ran {
    let program = Build::AsTests.program().as_os_str();
    Run::of(Path::new("sh"), ["-c".as_ref(), line.as_ref(), program])
        .within(folder)
        .finish()
}
