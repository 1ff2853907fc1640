//! `snell draw` as a person runs it.

mod program;

use program::{run, run_with, snell};

const HARROW: &[&str] = &["draw", "harrow-low", "--in", "examples/harrow.rig"];

#[test]
fn in_the_terminal() {
    let ran = run(HARROW);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("terminal", ran.out);
}

#[test]
fn on_a_phone() {
    let output = snell(HARROW).env("COLUMNS", "40").output().unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
    insta::assert_snapshot!("phone", out);
}

/// Where the locale knows no more, lines are drawn in letters that every terminal has.
#[test]
fn in_plain_letters() {
    let water = [HARROW, &["--in-water"]].concat();
    let [show, drift] = ["show", "drift"].map(|command| [&[command], &HARROW[1..]].concat());
    for arguments in [HARROW, &water, &show, &drift] {
        let output = snell(arguments).env("LANG", "C").output().unwrap();
        let out = String::from_utf8(output.stdout).unwrap();
        assert!(
            out.is_ascii() && out.contains("harrow-low"),
            "{arguments:?}: {out}"
        );
    }
}

#[test]
fn colours_are_those_of_the_rig() {
    let painted = |name: &str, value: &str| {
        let mut command = snell(&[&["--colour", "always"], HARROW].concat());
        let output = command.env(name, value).output().unwrap();
        String::from_utf8(output.stdout).unwrap()
    };
    // The pink and the yellow of `snell_picture::colours`, and the nearest to them.
    for (name, value, colours) in [
        ("COLORTERM", "truecolor", ["38;2;240;97;156", "38;2;244;207;43"]),
        ("TERM", "xterm-256color", ["38;5;205", "38;5;220"]),
        ("TERM", "xterm", ["\u{1b}[35m", "\u{1b}[33;100m"]),
    ] {
        let out = painted(name, value);
        for colour in colours {
            assert!(out.contains(colour), "no {colour:?} with {name}={value}: {out:?}");
        }
    }
}

#[test]
fn into_files() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let path = at("a.svg");
    let ran = run(&[HARROW, &["-o", path.to_str().unwrap()]].concat());
    assert_eq!((ran.status, ran.out), (0, format!("wrote {}\n", path.display())));
    assert!(std::fs::read_to_string(&path).unwrap().starts_with("<svg "));
    let png = at("a.PNG");
    run(&["draw", "examples/harrow.rig", "-o", png.to_str().unwrap()]);
    for name in ["a-harrow-low.PNG", "a-harrow-spate.PNG"] {
        // PNG specification, section 5.2: the signature.
        assert!(
            std::fs::read(at(name)).unwrap().starts_with(b"\x89PNG\r\n\x1a\n"),
            "{name}"
        );
    }
}

#[test]
fn two_rigs_of_one_name_get_a_file_each() {
    let folder = tempfile::tempdir().unwrap();
    for file in ["one.rig", "two.rig"] {
        std::fs::write(
            folder.path().join(file),
            "rig a\n  tippet 1 m of 5X fluoro\n  point #14\n",
        )
        .unwrap();
    }
    let out = folder.path().join("p.svg");
    let ran = run(&[
        "draw",
        folder.path().to_str().unwrap(),
        "-o",
        out.to_str().unwrap(),
    ]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(folder.path().join("p-a.svg").is_file() && folder.path().join("p-a-2.svg").is_file());
}

#[test]
fn a_form_that_there_is_none_of_is_refused_before_anything_is_read() {
    let ran = run(&["draw", "nothing-there", "-o", "a.gif"]);
    assert_eq!(
        (ran.status, ran.err.as_str()),
        (
            2,
            "snell: `a.gif` says no form of picture: end it in `.svg`, `.png` or `.pdf`\n"
        )
    );
}

#[test]
fn what_cannot_be_drawn_is_said() {
    let ran = run_with(&["draw", "-"], "rig bare \"nothing yet\"\n  method dry\n");
    assert_eq!((ran.status, ran.out.as_str()), (0, "bare: no line to draw\n"));
    let ran = run_with(
        &["draw", "-"],
        "rig half\n  tippet 20\n  tippet 20 in of 6X fluoro\n  point #14\n",
    );
    assert_eq!(
        (ran.status, ran.out.as_str()),
        (1, "half: not drawn until the faults of its parts are mended\n")
    );
}

/// A picture that cannot show a letter says so.
#[test]
fn letters_that_are_boxes_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let rig = "rig 川虫\n  tippet 1 m of 6X fluoro\n  point #14 2.8 mm tungsten\n";
    let written = |name: &str| {
        let out = folder.path().join(name);
        let ran = run_with(&["draw", "-", "-o", out.to_str().unwrap()], rig);
        ran.out.replace(out.to_str().unwrap(), name)
    };
    assert_eq!(
        written("a.png"),
        "wrote a.png: its font lacks 川 虫, which are boxes; an SVG shows them\n"
    );
    assert_eq!(written("a.svg"), "wrote a.svg\n");
}

#[test]
fn in_the_water() {
    let ran = run(&[HARROW, &["--in-water"]].concat());
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("in_water", ran.out);
    let output = snell(&[HARROW, &["--in-water"]].concat())
        .env("COLUMNS", "40")
        .output()
        .unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
}

#[test]
fn without_a_water_or_a_drift_it_says_what_is_wanting() {
    let rig = "  tippet 1 m of 5X fluoro\n  point #14 2.8 mm tungsten\n";
    let ran = run_with(&["draw", "-", "--in-water"], &format!("rig a\n{rig}"));
    assert_eq!(
        (ran.status, ran.out.as_str()),
        (0, "a: no picture in the water without a water\n")
    );
    let unknown = rig.replace("5X", "6 lb");
    let water = format!("rig a\n  water 1 m at 0.5 m/s\n{unknown}");
    let ran = run_with(&["draw", "-", "--in-water"], &water);
    assert!(
        ran.out.contains("the diameter of the tippet") && ran.out.contains("depth unknown"),
        "{}",
        ran.out
    );
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("a.svg");
    let ran = run_with(&["draw", "-", "--in-water", "-o", out.to_str().unwrap()], &water);
    assert_eq!(
        ran.out,
        format!(
            "wrote {}: how the rig rides is unknown, for want of the diameter of the tippet\n",
            out.display()
        )
    );
}

/// A page holds its pictures itself, and two pictures on it do not share a name.
#[test]
fn in_a_page() {
    let html = run(&["show", "examples/harrow.rig", "--form", "html"]).out;
    // Each of two rigs to scale, in its water, and the waters that it fishes.
    assert_eq!(html.matches("<svg ").count(), 6);
    assert!(html.contains("id=\"rig-1-in-water-title\""));
    assert!(html.contains("id=\"rig-1-title\"") && html.contains("id=\"rig-2-title\""));
    assert!(
        !html.contains("http://")
            || html
                .replace("http://www.w3.org/2000/svg", "")
                .find("http")
                .is_none()
    );
}
