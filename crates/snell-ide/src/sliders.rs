//! What of a rig a slider moves: the depth and speed of its water, the lengths
//! of its pieces, its beads. Each is one quantity at a place of the asked text,
//! and moving its slider is one edit there.

use super::told::with_rig;
use super::walk::{ASKED, each_expr, each_within, line_at};
use schemars::JsonSchema;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_finding::Edit;
use snell_rig::fit::Fit;
use snell_rig::keywords::SpeedOf;
use snell_rig::project::BlockRef;
use snell_rig::value::Value;
use snell_rig::{Evaluation, World};
use snell_syntax::{Expr, ExprKind, Single, SingleKind};
use snell_text::{Place, Span};
use snell_units::{Quantity, Resolved, System};

/// What a slider moves.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SliderOf {
    /// How deep the water is.
    Depth,
    /// How fast it runs.
    Speed,
    /// How long a piece of line is.
    Length,
    /// How large a bead is.
    Bead,
}

impl SliderOf {
    /// The least and the most that it is moved to, and about how far one step takes it, in SI. Common practice, no source:
    /// waters that are waded, and beads that are sold.
    const fn reach(self) -> (f64, f64, f64) {
        match self {
            Self::Depth => (0.1, 3.0, 0.05),
            Self::Speed => (0.05, 2.0, 0.03),
            Self::Length => (0.02, 2.0, 0.02),
            Self::Bead => (0.0015, 0.0055, 0.0001),
        }
    }
}

/// A quantity that a slider moves. Its numbers are in its unit.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Slider")]
pub struct Slider<P = Span> {
    pub of: SliderOf,
    /// The same in words, and of which part.
    pub name: String,
    pub unit: String,
    pub value: f64,
    pub least: f64,
    pub most: f64,
    pub step: f64,
    /// Where the quantity stands in the asked text, by whatever the reader counts in.
    #[serde(flatten)]
    pub place: P,
}

impl Slider {
    /// The same with its place as a reader counts it.
    pub fn counted<P>(self, count: impl FnOnce(Span) -> P) -> Slider<P> {
        Slider {
            of: self.of,
            name: self.name,
            unit: self.unit,
            value: self.value,
            least: self.least,
            most: self.most,
            step: self.step,
            place: count(self.place),
        }
    }
}

/// The sliders of a rig, from its water down its line.
pub fn sliders(notebook: &Notebook, rig: BlockRef<'_>) -> Vec<Slider> {
    let world = World::new(notebook.project());
    with_rig(&world, world.project.block(rig.id), |evaluation| {
        let mut sliders = Vec::new();
        of_water(evaluation, &mut sliders);
        of_line(evaluation, &mut sliders);
        sliders
    })
}

/// The edit that moves the quantity at a place to another value; nothing where none stands there.
pub fn slid(notebook: &Notebook, place: Span, to: f64) -> Option<Edit> {
    if !to.is_finite() || to < 0.0 {
        return None;
    }
    let (_, line) = line_at(notebook.project(), place.start)?;
    let mut new = None;
    each_expr(&line.line.form, &mut |_, expr| {
        each_within(expr, &mut |inner| {
            for (single, bare) in singles(inner) {
                if line.place(single.span).span == place {
                    new = written(single, bare, to);
                }
            }
        });
    });
    Some(Edit {
        place: Place::new(ASKED, place),
        new: new?,
    })
}

fn of_water(evaluation: &Evaluation<'_, '_>, sliders: &mut Vec<Slider>) {
    let Some(water) = &evaluation.rig.settings.water else {
        return;
    };
    let speed = match water.value.speed.1 {
        SpeedOf::Surface => "surface speed",
        SpeedOf::Mean => "mean speed",
    };
    if let Ok(depth) = &water.value.depth {
        of_value(evaluation, SliderOf::Depth, "depth", depth, sliders);
    }
    if let Ok(value) = &water.value.speed.0 {
        of_value(evaluation, SliderOf::Speed, speed, value, sliders);
    }
}

/// What a value was read from, where that is one place of the asked text.
fn of_value(
    evaluation: &Evaluation<'_, '_>,
    of: SliderOf,
    name: &str,
    value: &Value,
    sliders: &mut Vec<Slider>,
) {
    let mut causes = value.causes.iter();
    let (Some(cause), None) = (causes.next(), causes.next()) else {
        return;
    };
    if cause.place.text != ASKED {
        return;
    }
    let Some((_, line)) = line_at(evaluation.world.project, cause.place.span.start) else {
        return;
    };
    each_expr(&line.line.form, &mut |_, expr| {
        if line.place(expr.span) == cause.place {
            of_expr(of, name, expr, |span| line.place(span), sliders);
        }
    });
}

fn of_line(evaluation: &Evaluation<'_, '_>, sliders: &mut Vec<Slider>) {
    let chain = &evaluation.rig.chain;
    for (id, section) in chain.sections() {
        of_fit(
            SliderOf::Length,
            &chain.section_name(id),
            section.part.length(),
            sliders,
        );
    }
    for id in chain.droppers() {
        of_fit(
            SliderOf::Length,
            &chain.dropper_name(id),
            chain.dropper(id).part.length(),
            sliders,
        );
    }
    for (id, fly) in chain.flies() {
        let name = format!("bead of {}", chain.fly_name(id));
        of_fit(SliderOf::Bead, &name, fly.tied.fly.bead_fit, sliders);
    }
}

fn of_fit(of: SliderOf, name: &str, fit: Option<Fit<'_>>, sliders: &mut Vec<Slider>) {
    if let Some(fit) = fit.filter(|fit| fit.place().text == ASKED) {
        of_expr(of, name, fit.expr, |span| fit.line.place(span), sliders);
    }
}

/// One slider, or two for the ends of a spread. A place that two parts are made from has one.
fn of_expr(of: SliderOf, name: &str, expr: &Expr, place: impl Fn(Span) -> Place, sliders: &mut Vec<Slider>) {
    let ends = singles(expr);
    let spread = ends.len() > 1;
    for (index, (single, bare)) in ends.into_iter().enumerate() {
        let place = place(single.span).span;
        if sliders.iter().any(|slider| slider.place == place) {
            continue;
        }
        let end = ["from", "to"][index.min(1)];
        let name = if spread {
            format!("{name}, {end}")
        } else {
            name.to_owned()
        };
        sliders.extend(slider(of, name, place, single, bare));
    }
}

/// The quantities of an expression, each with the unit that a bare one takes from the other end of its spread.
fn singles(expr: &Expr) -> Vec<(&Single, Option<&str>)> {
    match &expr.kind {
        ExprKind::Single(single) => vec![(single, None)],
        ExprKind::Spread(low, high) => {
            let unit = high.unit().map(|unit| &*unit.plain);
            vec![(low, unit), (high, None)]
        }
        ExprKind::Path(_) | ExprKind::Call(..) | ExprKind::Sum(..) | ExprKind::Product(..) => Vec::new(),
    }
}

/// The number and unit of a quantity. Feet with inches are moved by the inch.
fn number_of(single: &Single, bare: Option<&str>) -> Option<(f64, Resolved)> {
    let unit = |word: &str| snell_units::resolve(word).ok();
    match &single.kind {
        SingleKind::Feet(feet, inches) => Some((feet.value * 12.0 + inches.value, unit("in")?)),
        SingleKind::Number(number, own) => {
            let word = own.as_ref().map(|own| &*own.plain).or(bare)?;
            Some((number.value, unit(word)?))
        }
        SingleKind::Pounds(..) | SingleKind::X(_) | SingleKind::Size(_) | SingleKind::Day => None,
    }
}

/// A quantity as its author would write another value of it.
fn written(single: &Single, bare: Option<&str>, to: f64) -> Option<String> {
    let (_, unit) = number_of(single, bare)?;
    match &single.kind {
        SingleKind::Feet(..) => {
            let Quantity { si, dimension } = unit.quantity(to);
            Some(snell_units::write(Quantity::new(si, dimension), System::Imperial))
        }
        SingleKind::Number(_, None) => Some(snell_units::write_number(to)),
        SingleKind::Number(_, Some(_)) => Some(format!("{} {}", snell_units::write_number(to), unit.plain)),
        SingleKind::Pounds(..) | SingleKind::X(_) | SingleKind::Size(_) | SingleKind::Day => None,
    }
}

fn slider(of: SliderOf, name: String, place: Span, single: &Single, bare: Option<&str>) -> Option<Slider> {
    let (value, unit) = number_of(single, bare)?;
    let (least, most, step) = of.reach();
    let one = unit.quantity(1.0).si;
    let step = round_number(step / one);
    let on_step = |number: f64| tidy((number / step).round() * step);
    let most = on_step(most / one).max(on_step(value * 1.5));
    Some(Slider {
        of,
        name,
        place,
        unit: unit.plain.to_string(),
        value,
        least: on_step(least / one).max(step).min(value),
        most,
        step,
    })
}

/// The nearest of 1, 2 and 5 times a power of ten.
fn round_number(number: f64) -> f64 {
    let power = 10_f64.powi(number.log10().floor() as i32);
    let share = number / power;
    let round = match share {
        ..1.5 => 1.0,
        ..3.5 => 2.0,
        ..7.5 => 5.0,
        _ => 10.0,
    };
    tidy(round * power)
}

/// Without the dust of binary fractions.
fn tidy(number: f64) -> f64 {
    (number * 1e6).round() / 1e6
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::told::rigs;
    use snell_analysis::{Kind, LocalDisk};
    use std::path::Path;

    const TEXT: &str = "water tail\n  depth 2 to 3 ft\n  surface 2.2 ft/s\n\nrig low\n  water tail\n  \
                        butt 3 ft 8 in of 0.28 mm nylon\n  tippet 32 in of 6X fluoro as upper\n  \
                        point #14 2.8 mm tungsten\n\nrig high from low\n  change upper to 44 in\n";

    fn notebook(text: &str) -> Notebook {
        Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.to_owned(), &LocalDisk)
    }

    fn of(text: &str, rig: usize) -> Vec<(String, f64, String, String)> {
        let book = notebook(text);
        let rig = rigs(book.project()).nth(rig).expect("it is there");
        let told = |slider: Slider| {
            let written = slider.place.of(text).to_owned();
            (slider.name, slider.value, slider.unit, written)
        };
        sliders(&book, rig).into_iter().map(told).collect()
    }

    #[test]
    fn what_the_rig_takes_is_moved_where_it_is_written() {
        let low = of(TEXT, 0);
        let names: Vec<&str> = low.iter().map(|(name, ..)| &**name).collect();
        assert_eq!(names.len(), 6, "{low:?}");
        assert_eq!(&names[..3], ["depth, from", "depth, to", "surface speed"]);
        assert_eq!((low[0].1, &*low[0].2, &*low[0].3), (2.0, "ft", "2"));
        assert_eq!((low[3].1, &*low[3].2, &*low[3].3), (44.0, "in", "3 ft 8 in"));
        let high = of(TEXT, 1);
        assert!(high.iter().any(|(_, value, ..)| *value == 44.0), "{high:?}");
        assert!(!high.iter().any(|(_, value, ..)| *value == 32.0), "{high:?}");
    }

    #[test]
    fn a_moved_quantity_is_what_was_asked_for() {
        let book = notebook(TEXT);
        for rig in rigs(book.project()) {
            for slider in sliders(&book, rig) {
                assert!(
                    slider.least <= slider.value && slider.value <= slider.most,
                    "{slider:?}"
                );
                let edit = slid(&book, slider.place, slider.value).expect("it can be moved");
                let new = TEXT.replacen(slider.place.of(TEXT), &edit.new, 1);
                let again = sliders(
                    &notebook(&new),
                    rigs(notebook(&new).project()).next().expect("it is there"),
                );
                assert!(!again.is_empty());
                let value = slider.value + slider.step;
                let edit = slid(&book, slider.place, value).expect("it can be moved");
                let mut new = TEXT.to_owned();
                new.replace_range(slider.place.start as usize..slider.place.end as usize, &edit.new);
                let book = notebook(&new);
                let name = |other: &Slider| other.place.start == slider.place.start;
                let all: Vec<Slider> = rigs(book.project()).flat_map(|rig| sliders(&book, rig)).collect();
                let found = all.iter().find(|other| name(other)).expect("it is still there");
                assert!((found.value - value).abs() < 1e-6, "{found:?} is not {value}");
            }
        }
    }

    #[test]
    fn what_is_no_quantity_is_not_slid() {
        let book = notebook(TEXT);
        let name = TEXT.find("upper").expect("it is there") as u32;
        assert_eq!(slid(&book, Span::new(name, name + 5), 3.0), None);
        assert_eq!(slid(&book, Span::new(9_999, 10_000), 3.0), None);
    }
}
