//! Every limit of the table: what goes just beyond it is told as the table
//! says, and what goes up to it is not.

use super::{ended, folder, head, says, snell};
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::{Code, Limit, Told};
use snell_tests::top;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// How a limit is met.
enum Met {
    /// By a text with so much of it.
    Text(fn(u64) -> String),
    /// By a run of the program that is told of one too much.
    Run(fn(u64)),
    /// By a test with this name, in a file of its own.
    In(&'static str, &'static str),
    /// It refuses nothing, so nothing is told.
    Quietly,
}

fn met(limit: Limit) -> Met {
    const STRAIN: &str = "tests/cases/editor/strain.rs";
    match limit {
        Limit::FileBytes => Met::Run(a_file),
        Limit::LineBytes => Met::Text(|most| format!("rig a\n{}\n", padded(most))),
        Limit::Parentheses => Met::Text(parentheses),
        Limit::Number => Met::Text(|most| format!("rig a\n  let b = {most} mm\n")),
        Limit::Blocks => Met::Run(blocks),
        Limit::Uses => Met::Text(|most| many(most, |number| format!("use \"no-{number}.rig\"\n"))),
        Limit::BlockLines => {
            Met::Text(|most| format!("rig a\n{}", many(most, |_| "  note \"a\"\n".to_owned())))
        }
        Limit::BrokenLines => Met::Text(|most| many(most, |_| "?\n".to_owned())),
        Limit::Bases => Met::Text(bases),
        Limit::Parts => Met::Text(parts),
        Limit::Values => Met::Text(values),
        Limit::Rulebooks => Met::Text(rulebooks),
        Limit::RuleLimits => Met::Text(rule_limits),
        Limit::Findings => Met::Text(|most| many(most, |number| format!("fly f{number}\n  hook 1\n"))),
        Limit::CardLines => Met::Run(a_card),
        Limit::PlanWaters => Met::Run(a_day),
        Limit::CardFlies => Met::Run(a_box),
        Limit::MendAttempts => Met::Run(mends),
        Limit::DrawnRigs => Met::Run(shown),
        Limit::Reports => Met::Run(reports),
        Limit::FitWork => Met::Run(a_fit),
        Limit::Message => Met::In(STRAIN, "what_is_far_too_large_is_never_held"),
        Limit::MessageDepth => Met::In(
            "crates/snell-server/src/input.rs",
            "what_is_nested_too_deep_is_told",
        ),
        Limit::FolderEntries => Met::In(
            "crates/snell-server/src/folder.rs",
            "a_folder_of_too_much_is_told",
        ),
        Limit::GitSilence => Met::In(
            "tests/cases/hostile/repositories.rs",
            "a_repository_that_never_answers",
        ),
        Limit::Causes
        | Limit::MendWork
        | Limit::RigMendWork
        | Limit::MendRounds
        | Limit::ComparedParts
        | Limit::ComparedRigs
        | Limit::LiveFiles
        | Limit::TidyEdits
        | Limit::JudgedRigs
        | Limit::OutlineEntries
        | Limit::OpenText => Met::Quietly,
    }
}

#[test]
fn every_limit_is_told_where_it_is_passed_and_not_before() {
    for limit in Limit::ALL.iter().flat_map(|(_, limits)| *limits) {
        match (met(*limit), limit.told()) {
            (Met::Text(text), Told::Fault(code)) => {
                assert!(!raises(&text(limit.most()), code), "{limit:?} is told too soon");
                assert!(raises(&text(limit.most() + 1), code), "{limit:?} is not told");
            }
            (Met::Run(run), Told::Message(_) | Told::Fault(_)) => run(limit.most()),
            (Met::In(file, name), Told::Message(_)) => {
                let text = fs::read_to_string(top().join(file)).unwrap();
                assert!(text.contains(&format!("fn {name}()")), "{file} has no {name}");
            }
            (Met::Quietly, Told::Instead(_)) => {}
            (_, told) => panic!("{limit:?} is told by {told:?}, and is not met so"),
        }
    }
}

fn raises(text: &str, code: Code) -> bool {
    let book = Notebook::of_text(
        Path::new("/none/asked.rig"),
        Kind::Rig,
        text.to_owned(),
        &LocalDisk,
    );
    snell_article::check(&book)
        .iter()
        .any(|finding| finding.code == code)
}

fn many(count: u64, line: impl Fn(u64) -> String) -> String {
    (0..count).map(line).collect()
}

/// A line of so many bytes.
fn padded(bytes: u64) -> String {
    let (open, close) = ("  note \"", "\"");
    let letters = bytes as usize - open.len() - close.len();
    format!("{open}{}{close}", "a".repeat(letters))
}

fn parentheses(depth: u64) -> String {
    let depth = depth as usize;
    format!("rig a\n  let b = {}1 m{}\n", "(".repeat(depth), ")".repeat(depth))
}

/// A row of so many blocks.
fn bases(count: u64) -> String {
    let derived = |number: u64| format!("fly f{} from f{number}\n\n", number + 1);
    format!("fly f0\n  hook #14\n\n{}", many(count - 1, derived))
}

/// A rig of so many parts.
fn parts(count: u64) -> String {
    let tippets = many(count, |_| "  tippet 1 in of 6X fluoro\n".to_owned());
    format!("rig a\n{tippets}")
}

/// A row of so many values.
fn values(count: u64) -> String {
    let lets = many(count - 1, |number| {
        format!("  let v{number} = v{} + 1 in\n", number + 1)
    });
    format!(
        "rig a\n  tippet 2 m of 6X fluoro\n{lets}  let v{} = 1 in\n",
        count - 1
    )
}

/// A row of so many rulebooks, held against a rig.
fn rulebooks(count: u64) -> String {
    let mut books = many(count - 1, |number| {
        format!("rulebook r{number}\n  with r{}\n\n", number + 1)
    });
    let _ = write!(books, "rulebook r{}\n  with fly-spacing\n\n", count - 1);
    format!("{books}rig a\n  rules r0\n  tippet 2 m of 6X fluoro\n  point #14 2.8 mm tungsten\n")
}

/// A rule with a row of so many limits.
fn rule_limits(count: u64) -> String {
    let limits = many(count - 1, |number| {
        format!("  limit l{number} = l{} + 1 in\n", number + 1)
    });
    let limits = limits.replace(" = ", " ");
    format!(
        "rule row\n  about \"a row\"\n  keep total at least l0\n{limits}  limit l{} 1 in + 1 in\n  say \"short\"\n\n\
         rulebook mine\n  with row\n\nrig a\n  rules mine\n  tippet 2 m of 6X fluoro\n  point #14 2.8 mm tungsten\n",
        count - 1
    )
}

fn message(limit: Limit) -> &'static str {
    match limit.told() {
        Told::Message(words) => words,
        Told::Fault(_) | Told::Instead(_) => panic!("{limit:?} is told by no message"),
    }
}

fn a_file(most: u64) {
    let folder = folder();
    let check = |bytes: u64| {
        fs::write(folder.path().join("a.rig"), " ".repeat(bytes as usize)).unwrap();
        ended(snell(folder.path(), &["check", "a.rig"])).0
    };
    assert_eq!(check(most).status, Some(0), "there is nothing in it but spaces");
    says(&check(most + 1), 1, message(Limit::FileBytes));
}

/// As many as this are read by the program as it ships only.
fn blocks(most: u64) {
    let folder = folder();
    let check = |count: u64| {
        let flies = many(count, |number| format!("fly f{number}\n  hook #14\n"));
        fs::write(folder.path().join("a.rig"), flies).unwrap();
        ended(snell(folder.path(), &["check", "--form", "lines", "a.rig"])).0
    };
    assert_eq!(check(most).status, Some(0));
    says(&check(most + 1), 1, Code::TextOverfull.name());
}

fn rig() -> &'static str {
    "rig a\n  water 2 ft at 2 ft/s over cobble\n  tippet 2 m of 6X fluoro\n  point #14 2.8 mm tungsten\n"
}

fn a_card(most: u64) {
    let folder = folder();
    fs::write(folder.path().join("a.rig"), rig()).unwrap();
    let depths = |count: u64| {
        let mut arguments = vec!["card".to_owned(), "a".to_owned(), "--depths".to_owned()];
        arguments.extend((1..=count).map(|number| format!("{} cm", 20 + number)));
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        ended(snell(folder.path(), &arguments)).0
    };
    assert_eq!(depths(most).status, Some(0));
    says(&depths(most + 1), 2, message(Limit::CardLines));
}

fn a_day(most: u64) {
    let folder = folder();
    let water = "water near\n  depth 1 m\n  surface 0.5 m/s\n\n";
    fs::write(folder.path().join("a.rig"), format!("{water}{}", rig())).unwrap();
    let waters = |count: u64| {
        let mut arguments = vec!["plan", "a"];
        arguments.extend((0..count).map(|_| "near"));
        ended(snell(folder.path(), &arguments)).0
    };
    assert_ne!(waters(most).status, Some(2));
    says(&waters(most + 1), 2, message(Limit::PlanWaters));
}

fn a_box(most: u64) {
    let folder = folder();
    let card = |count: u64| {
        let flies = many(count - 1, |number| {
            format!("fly f{number}\n  hook #14\n  bead 2.8 mm tungsten\n\n")
        });
        fs::write(folder.path().join("a.rig"), format!("{flies}{}", rig())).unwrap();
        ended(snell(
            folder.path(),
            &["card", "a", "--depths", "1 ft", "--speeds", "1 ft/s"],
        ))
        .0
    };
    assert_ne!(card(most).status, Some(2));
    says(&card(most + 1), 2, message(Limit::CardFlies));
}

/// Each rig from the one before it, so that what mends one spoils those below it.
fn mends(most: u64) {
    let folder = folder();
    let variant = |number: u64| {
        let base = if number == 0 {
            "a".to_owned()
        } else {
            format!("v{}", number - 1)
        };
        format!(
            "rig v{number} from {base}\n  change tippet to {} cm\n\n",
            45 + number
        )
    };
    let first = "rig a\n  method tight-line\n  water 3 ft at 2 ft/s over cobble\n  sighter 40 cm of 0.20 mm nylon\n  \
                 ring 2 mm\n  tippet 50 cm of 6X fluoro\n  point #14 2.8 mm tungsten\n\n";
    fs::write(
        folder.path().join("a.rig"),
        format!("{first}{}", many(20 * most, variant)),
    )
    .unwrap();
    let (ran, _) = ended(snell(folder.path(), &["check", "--mend", "a.rig"]));
    let told = ran.told().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains(message(Limit::MendAttempts)), "{}", head(&told));
}

fn shown(most: u64) {
    let folder = folder();
    let show = |count: u64| {
        let rigs = many(count, |number| rig().replace("rig a", &format!("rig r{number}")));
        fs::write(folder.path().join("a.rig"), rigs).unwrap();
        ended(snell(folder.path(), &["show", "--form", "csv", "a.rig"])).0
    };
    let all = show(most);
    assert!(!all.told().contains(message(Limit::DrawnRigs)));
    says(&show(most + 1), 0, message(Limit::DrawnRigs));
}

fn reports(most: u64) {
    let folder = folder();
    let check = |count: u64| {
        let text = many(count, |number| format!("fly f{number}\n  hook 1\n"));
        fs::write(folder.path().join("a.rig"), text).unwrap();
        ended(snell(folder.path(), &["check", "a.rig"])).0
    };
    let all = check(most);
    assert!(
        !all.told().contains(message(Limit::Reports)),
        "{}",
        head(&all.told())
    );
    says(&check(most + 1), 1, message(Limit::Reports));
}

/// Eleven claims that no three changes fulfil, of a rig with many parts to change.
fn a_fit(_: u64) {
    let folder = folder();
    let pairs = many(12, |number| {
        format!(
            "  tippet {} cm of 5X fluoro as t{number}\n  dropper 15 cm with #16 2.4 mm tungsten\n",
            30 + number
        )
    });
    let claims = many(11, |number| {
        format!("  expect t{number} over 2 times t{}\n", number + 1)
    });
    let text = format!(
        "rig a\n  method team\n  water 3 ft to 5 ft at 2 ft/s over cobble\n  sighter 40 cm of 0.20 mm nylon\n  ring 2 mm\n\
         {pairs}  tippet 50 cm of 6X fluoro\n  point #14 2.8 mm tungsten\n{claims}  expect total under 50 cm\n"
    );
    fs::write(folder.path().join("a.rig"), text).unwrap();
    let (ran, _) = ended(snell(folder.path(), &["fit", "a"]));
    let told = ran.told().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains(message(Limit::FitWork)), "{}", head(&told));
}
