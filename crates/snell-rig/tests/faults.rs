//! Every fault of rigs, each raised by the fewest lines that raise it and nothing else.

mod support;

use snell_finding::{Code, Stage};
use snell_rig::project::Project;
use snell_syntax::BlockKind;
use std::collections::BTreeSet;
use std::fmt::Write;
use support::{findings, project, source};

const RIG: &str = "rig a\n  tippet 40 in of 6X fluoro as upper\n  tippet 20 in of 5X fluoro as lower\n  point #14 2.8 mm tungsten\n";

/// A code, and what raises it behind a sound rig of two tippets.
const BEHIND_A_RIG: &[(Code, &str)] = &[
    (Code::UnitMissing, "  reach 20\n"),
    (Code::UnitUnknown, "  reach 20 feets/minute\n"),
    (Code::UnitWrong, "  tip 3 kg\n"),
    (Code::DimensionsDiffer, "  let sum = 3 ft + 2 kg\n"),
    (Code::NumberDoubtful, "  reach 1,200 mm\n"),
    (Code::NameFormer, "  let pace = creep\n"),
    (Code::SpreadMisplaced, "  reach 2 ft to 3 ft\n"),
    (Code::ValueLacking, "  reach\n"),
    (Code::ValueMisplaced, "  cast tuck 3 ft\n"),
    (Code::ClauseMisplaced, "  reach 3 ft of 6X\n"),
    (Code::ClauseTwice, "  water 3 ft at 2 ft/s at 3 ft/s\n"),
    (Code::TextUnwanted, "  reach 3 ft \"about\"\n"),
    (Code::TextMissing, "  note\n"),
    (Code::NameUnknown, "  expect totl over 3 ft\n"),
    (Code::NameTaken, "  let total = 3 ft\n"),
    (Code::KeyUnknown, "  reech 3 ft\n"),
    (Code::LineTwice, "  reach 3 ft\n  reach 4 ft\n"),
    (Code::LineTwice, "  water 3 ft\n  water 2 ft at 2 ft/s\n"),
    (Code::Loop, "  let one = two\n  let two = one\n"),
    (Code::DividedByNothing, "  let much = 3 ft / 0\n"),
    (Code::FunctionUnknown, "  let most = sum(3 ft, 4 ft)\n"),
    (Code::NotAValue, "  let way = method + 3 ft\n  method dry\n"),
    (Code::PartAfterPoint, "  shot 0.4 g\n"),
    (Code::Expect, "  expect total over 30 ft\n"),
    (Code::ExpectUnknown, "  expect depth over 3 ft\n"),
    (Code::WordUnasked, "  expect total is long\n"),
    (Code::EditWithoutBase, "  remove upper\n"),
    (
        Code::PartInDerived,
        "\nrig b from a\n  tippet 30 in of 6X fluoro\n",
    ),
    (
        Code::EditTwice,
        "\nrig b from a\n  change upper to 30 in\n  change tippet 1 to 31 in\n",
    ),
    (Code::TargetUnknown, "\nrig b from a\n  remove uper\n"),
    (Code::FromLoop, "\nfly one from two\n\nfly two from one\n"),
    (Code::LineMissing, "\nrod short\n  weight #3\n"),
    (Code::ShippedReplaced, "\nmaterial fluoro\n  density 1.7 g/cm3\n"),
    (Code::DayUnknown, "\nouting one\n  day 2026-02-30\n  rig a\n"),
    (
        Code::CountNotWhole,
        "\nouting one\n  day 2026-05-14\n  rig a\n  caught 1.5 on point\n",
    ),
];

/// A code, and a whole text that raises it.
const WHOLE: &[(Code, &str)] = &[
    (
        Code::SizesContradict,
        "rig a\n  tippet 3 ft of 5X 0.30 mm\n  point #14 2.8 mm tungsten\n",
    ),
    (Code::SizeMarkMissing, "fly a\n  hook 14\n"),
    (
        Code::SizeSpaced,
        "rig a\n  tippet 40 in of 6 X fluoro\n  point #14 2.8 mm tungsten\n",
    ),
    (
        Code::SizeTooFine,
        "rig a\n  tippet 40 in of 11X fluoro\n  point #14 2.8 mm tungsten\n",
    ),
    (
        Code::ValueLate,
        "rig a\n  tippet 40 in of 6X fluoro\n\nrig b from a\n  change tippet to fluoro 6X\n",
    ),
    (
        Code::JoiningWordMissing,
        "rig a\n  tippet 40 in of 6X fluoro\n\nrig b from a\n  change tippet to 30 in 5X fluoro\n",
    ),
    (
        Code::NameTwice,
        "rig a\n  tippet 40 in of 6X fluoro as one\n  tippet 20 in of 5X fluoro as one\n",
    ),
    (
        Code::LengthUnsaid,
        "rig a\n  tippet of 6X fluoro\n  point #14 2.8 mm tungsten\n",
    ),
    (
        Code::LengthUnsaid,
        "rig a\n  tippet 40 in of 6X fluoro\n  dropper with #16\n  tippet 20 in of same\n  point #14\n",
    ),
    (
        Code::MassUnsaid,
        "rig a\n  tippet 40 in of 6X fluoro\n  shot at 20 cm over point\n  point #14\n",
    ),
    (
        Code::PartUnattached,
        "rig a\n  tippet 40 in of 6X fluoro\n  float 12 mm foam at 4 ft over point\n  point #14\n",
    ),
    (Code::PartUnattached, "rig a\n  tippet 40 in of same\n"),
    (
        Code::LengthNotPositive,
        "rig a\n  tippet 40 in - 50 in of 6X fluoro\n",
    ),
    (
        Code::PartUnattached,
        "rig a\n  ring 2 mm\n  tippet 40 in of 6X fluoro\n",
    ),
    (
        Code::KnotTwice,
        "rig a\n  tippet 40 in of 6X fluoro\n  knot blood\n  knot blood\n  tippet 20 in of 5X fluoro\n",
    ),
];

fn raised(project: &Project) -> BTreeSet<Code> {
    let codes = findings(project)
        .into_iter()
        .filter_map(|finding| finding.code.known());
    codes.collect()
}

/// Texts that are too long to be written out.
fn made() -> Vec<(Code, Project)> {
    let mut long = "fly f0\n  hook #14\n\n".to_owned();
    for number in 1..=100 {
        let _ = write!(long, "fly f{number} from f{}\n\n", number - 1);
    }
    let mut deep = RIG.to_owned();
    for number in 0..70 {
        let _ = writeln!(deep, "  let v{number} = v{} + 1 in", number + 1);
    }
    deep.push_str("  let v70 = 1 in\n");
    let crowded = format!("rig a\n{}", "  tippet 1 in of 6X fluoro\n".repeat(101));
    let many = format!("{RIG}{}", "  reach 20\n".repeat(2_001));
    let fly = "fly mote\n  hook #18\n";
    let mut ambiguous = Project::default();
    let one = ambiguous.add(source(fly, 1, Vec::new()));
    let other = ambiguous.add(source(fly, 2, Vec::new()));
    let user = "use \"one.rig\"\nuse \"other.rig\"\n\nrig a\n  tippet 40 in of 6X fluoro\n  point mote\n";
    ambiguous.add(source(user, 3, vec![(one, 0), (other, 1)]));
    vec![
        (Code::RigOverfull, project(&crowded)),
        (Code::FromLong, project(&long)),
        (Code::ValueDeep, project(&deep)),
        (Code::FindingsLeftOut, project(&many)),
        (Code::NameAmbiguous, ambiguous),
    ]
}

#[test]
fn each_is_raised_alone() {
    for (code, text) in BEHIND_A_RIG {
        let text = format!("{RIG}{text}");
        assert_eq!(raised(&project(&text)), BTreeSet::from([*code]), "{text}");
    }
    for (code, text) in WHOLE {
        assert_eq!(raised(&project(text)), BTreeSet::from([*code]), "{text}");
    }
}

#[test]
fn what_takes_long_texts_is_raised_too() {
    for (code, project) in made() {
        assert!(raised(&project).contains(&code), "{code}");
    }
}

/// What an outing caught on a fly that its rig does not carry is told where the outing's rig is laid out.
const RAISED_ABOVE: &[Code] = &[Code::FlyNotOnRig];

#[test]
fn none_is_left_out() {
    let made = made();
    let all = BEHIND_A_RIG.iter().chain(WHOLE).map(|(code, _)| *code);
    let all: BTreeSet<Code> = all
        .chain(made.iter().map(|(code, _)| *code))
        .chain(RAISED_ABOVE.iter().copied())
        .collect();
    let of_rigs = Code::ALL
        .iter()
        .copied()
        .filter(|code| code.stage() == Stage::Rigs);
    let left: Vec<Code> = of_rigs.filter(|code| !all.contains(code)).collect();
    assert_eq!(left, [], "no text raises these");
}

#[test]
fn a_sound_rig_raises_none() {
    assert_eq!(raised(&project(RIG)), BTreeSet::new());
}

/// What opens a line of a rig is never kept as a note, whatever follows it.
#[test]
fn no_line_of_a_rig_is_taken_for_a_remark() {
    for row in snell_rig::keywords::rows(BlockKind::Rig) {
        let text = format!("rig a\n  {} quite as often as ever\n", row.key);
        let raised = raised(&project(&text));
        assert!(!raised.contains(&Code::WordsUnread), "{text}");
    }
}
