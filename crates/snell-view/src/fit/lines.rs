//! A way as lines of the language: a rig made from the one that was fitted,
//! with its water, its changes and what it comes to.

use super::bring::Teller;
use super::water::{Asked, ToWater, WrittenWater};
use snell_rig::rig::{FlyAt, Rig};
use snell_rig::thing::FlyId;
use snell_rules::fit::{Change, Target, To, Way};
use snell_text::TextId;
use std::collections::BTreeMap;

/// What the water adds to the rig's name.
pub(super) fn suffix(to: &ToWater, asked: &Asked) -> String {
    let said = [&to.depth, &to.speed, &to.temperature, &to.bed];
    let mut said: Vec<&str> = said.into_iter().flatten().map(String::as_str).collect();
    if let Some(name) = &to.name {
        said.insert(0, name);
    }
    match &asked.written {
        WrittenWater::Named(name) | WrittenWater::OutOfSight(name, _) => name.clone(),
        WrittenWater::Own => "fitted".to_owned(),
        WrittenWater::Varied(..) => {
            let plain = |text: &&str| {
                let text = text.to_lowercase().replace(" to ", "-to-").replace(' ', "");
                text.replace(['/', '.', ',', '\'', '"'], "-")
            };
            let plain: Vec<String> = said.iter().map(plain).collect();
            let name: String = plain
                .join("-")
                .chars()
                .filter(|letter| is_of_name(*letter))
                .collect();
            name.trim_matches('-').to_owned()
        }
    }
}

/// Whether a name may have such a letter behind its first.
pub(super) fn is_of_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '-'
}

/// The lines, laid out.
pub(super) fn lines(
    name: &str,
    asked: &Asked,
    teller: &Teller<'_, '_, '_, '_>,
    way: &Way,
    rig: &Rig<'_>,
) -> String {
    let mut lines = String::new();
    let mut push = |line: &str| {
        lines.push_str(line);
        lines.push('\n');
    };
    if let WrittenWater::Varied(from, said) = &asked.written {
        let from = from.as_ref().map(|from| format!(" from {from}"));
        push(&format!("water {name}{}", from.unwrap_or_default()));
        said.iter()
            .for_each(|(key, value)| push(&format!("  {key} {value}")));
        push("");
    }
    push(&format!("rig {name} from {}", rig.name));
    match &asked.written {
        WrittenWater::Own => {}
        WrittenWater::Named(water) | WrittenWater::OutOfSight(water, _) => push(&format!("  water {water}")),
        WrittenWater::Varied(..) => push(&format!("  water {name}")),
    }
    changes(teller, &way.changes, rig)
        .iter()
        .chain(&teller.restated(&way.changes))
        .for_each(|line| push(&format!("  {line}")));
    laid_out(&lines)
}

/// What the `change` line of one part says: its own values, and its clause.
#[derive(Default)]
struct Said {
    own: String,
    clause: String,
}

/// The `change` lines, one a part, and the cast.
fn changes(teller: &Teller<'_, '_, '_, '_>, changes: &[Change], rig: &Rig<'_>) -> Vec<String> {
    let chain = &rig.chain;
    let mut parts: BTreeMap<String, Said> = BTreeMap::new();
    let mut cast = None;
    for change in changes {
        let length = || {
            teller
                .bank
                .lengths(*change)
                .map(|(now, _)| now.written())
                .unwrap_or_default()
        };
        let fly = || {
            teller
                .bank
                .choice(*change)
                .map_or_else(String::new, |choice| choice.words.clone())
        };
        match (change.target, change.to) {
            (Target::Section(id), _) => parts.entry(chain.section_name(id)).or_default().own = length(),
            (Target::Tag(id), _) => parts.entry(chain.dropper_name(id)).or_default().own = length(),
            (Target::Fly(id), _) => match chain.fly(id).at {
                FlyAt::Dropper(tag) => {
                    parts.entry(chain.dropper_name(tag)).or_default().clause = format!("with {}", fly());
                }
                FlyAt::Point | FlyAt::Inline => parts.entry(target_of(rig, id)).or_default().own = fly(),
            },
            (Target::Cast, To::Cast(to)) => cast = Some(format!("cast {}", to.word())),
            (Target::Cast, _) => {}
        }
    }
    let changed = parts.into_iter().map(|(part, said)| {
        let values = [said.own, said.clause]
            .into_iter()
            .filter(|words| !words.is_empty());
        format!("change {part} to {}", values.collect::<Vec<_>>().join(" "))
    });
    changed.chain(cast).collect()
}

/// How an edit names a fly that is tied to the line.
pub(crate) fn target_of(rig: &Rig<'_>, id: FlyId) -> String {
    let on = rig.chain.fly(id);
    if let Some((_, label)) = on.part.label() {
        return label.folded.to_string();
    }
    let kind = on.part.kind();
    let alike = rig.chain.flies().filter(|(_, other)| other.part.kind() == kind);
    let (above, below): (Vec<_>, Vec<_>) = alike.map(|(other, _)| other).partition(|other| *other <= id);
    match above.len() + below.len() {
        1 => kind.word().to_owned(),
        _ => format!("{} {}", kind.word(), above.len()),
    }
}

fn laid_out(lines: &str) -> String {
    let edits = snell_syntax::tidy(lines, TextId(0), &snell_syntax::whole(lines));
    snell_finding::apply(lines, edits.into_iter().map(|edit| (edit.place.span, edit.new)))
}
