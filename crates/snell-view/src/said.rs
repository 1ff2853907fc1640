//! What each part of a rig is said to be, in the order of the line: the facts of its line, and nothing computed.

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::Evaluation;
use snell_rig::blocks::LineSize;
use snell_rig::fit::{Fit, Given};
use snell_rig::keywords::{Take, colours_in_name};
use snell_rig::lack::Outcome;
use snell_rig::project::BlockId;
use snell_rig::rig::{Part, Stuff, Tied, What};
use snell_syntax::{BlockKind, ExprKind, Joint};

/// A part as its line says it. What is unsaid is left out.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct SaidPart {
    /// Its kind: `tippet`, `dropper`, `ring` and so on.
    pub kind: &'static str,
    /// Its quantities in SI units: `length`, `diameter`, `upper` and `lower` of a tapered piece, `rated`, `bead`, `mass`.
    pub values: IndexMap<&'static str, f64>,
    /// What its line or its bead is made of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
    /// The size of its hook: `#14`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hook: Option<String>,
    /// What it is called.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Its colours in order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<String>,
    /// The knot that its line names.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub knot: Option<String>,
    /// How many of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Other words that are said of it: `barbless`, `tapered`.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub words: Vec<String>,
}

/// Every part of a rig.
pub(crate) fn parts(evaluation: &Evaluation<'_, '_>) -> Vec<SaidPart> {
    let chain = &evaluation.rig.chain;
    let sayer = Sayer { evaluation };
    chain.parts().map(|(_, part)| sayer.part(part)).collect()
}

struct Sayer<'a, 'r, 'p> {
    evaluation: &'a Evaluation<'r, 'p>,
}

impl<'p> Sayer<'_, '_, 'p> {
    fn part(&self, part: &Part<'p>) -> SaidPart {
        let given = &part.given;
        let mut said = SaidPart {
            kind: part.kind().word(),
            name: given.text.map(|text| given.line.text(text).to_owned()),
            words: words(given),
            ..SaidPart::default()
        };
        self.put(&mut said, "length", part.length());
        match &part.what {
            What::Section { stuff, knot, .. } => {
                self.stuff(&mut said, stuff);
                said.knot = knot.map(|knot| self.name(knot));
            }
            What::Knot { knot, tags } => {
                said.knot = knot.map(|knot| self.name(knot));
                self.put(&mut said, "tags", *tags);
            }
            What::Ring { size } => self.put(&mut said, "diameter", *size),
            What::Swivel { size, mass } => {
                self.put(&mut said, "diameter", *size);
                self.put(&mut said, "mass", *mass);
                if let Some(rated) = given
                    .get(Take::Force)
                    .and_then(|fit| self.evaluation.value(fit).ok())
                {
                    said.values.insert("rated", force(rated.si(), rated.dimension()));
                }
            }
            What::Dropper { stuff, join, tied } => {
                if let Some(stuff) = stuff {
                    self.stuff(&mut said, stuff);
                }
                self.tied(&mut said, given, Some(Joint::With), tied);
                said.knot = join.map(|knot| self.name(knot)).or(said.knot);
            }
            What::Inline(tied) | What::Point(tied) => self.tied(&mut said, given, None, tied),
            What::Shot { mass, material, seat } => {
                self.put(&mut said, "over", seat.map(|seat| seat.distance));
                self.put(&mut said, "mass", *mass);
                said.count = mass.and_then(count);
                said.material = material.map(|material| self.name(material));
                let on = given.within(Joint::On, Take::Name(BlockKind::Knot));
                said.knot = on.map(|fit| fit.line.written(fit.expr.span).to_owned());
            }
            What::Float { size, material, seat } => {
                self.put(&mut said, "over", seat.map(|seat| seat.distance));
                self.put(&mut said, "diameter", *size);
                said.material = material.map(|material| self.name(material));
                said.colours = colours(given, None);
            }
        }
        said
    }

    fn name(&self, id: BlockId) -> String {
        self.evaluation.world.name(id).to_owned()
    }

    fn put(&self, said: &mut SaidPart, what: &'static str, fit: Option<Fit<'p>>) {
        if let Some(Ok(value)) = fit.map(|fit| self.evaluation.value(fit)) {
            said.values.insert(what, value.si());
        }
    }

    fn stuff(&self, said: &mut SaidPart, stuff: &Stuff<'p>) {
        let mut put = |what, outcome: &Outcome| {
            if let Ok(value) = outcome {
                said.values.insert(what, value.si());
            }
        };
        match &stuff.size {
            Some(LineSize::Level(size)) => put("diameter", size),
            Some(LineSize::Tapered(upper, lower)) => {
                put("upper", upper);
                put("lower", lower);
            }
            Some(LineSize::FlyLine(_)) | None => {}
        }
        if let Some(measured) = &stuff.measured {
            put("diameter", measured);
        }
        if let Some(Ok(rated)) = &stuff.rated {
            said.values.insert("rated", force(rated.si(), rated.dimension()));
        }
        said.material = stuff.material.map(|material| self.name(material));
        said.colours = stuff.colours.iter().map(|colour| (*colour).to_owned()).collect();
    }

    fn tied(&self, said: &mut SaidPart, given: &Given<'p>, joint: Option<Joint>, tied: &Tied<'p>) {
        let fly = &tied.fly;
        said.hook = fly.hook.as_ref().map(|hook| format!("#{}", hook.written));
        if let Some(bead) = &fly.bead {
            if let Ok(size) = &bead.size {
                said.values.insert("bead", size.si());
            }
            let material = bead.material.map(|material| self.name(material));
            said.material = material.or(said.material.take());
        } else if let Some(fit) = given.all(joint, Take::Name(BlockKind::Material)).next() {
            // What a bead of unknown size is made of.
            said.material = Some(fit.line.written(fit.expr.span).to_owned());
        }
        if said.name.is_none() && tied.block.is_some() {
            said.name = Some(tied.described(self.evaluation.world));
        }
        said.knot = tied.knot.map(|knot| self.name(knot));
        let named = said.name.as_deref().map(colours_in_name).unwrap_or_default();
        said.colours = named
            .into_iter()
            .map(str::to_owned)
            .chain(colours(given, joint))
            .collect();
    }
}

/// A mass stands for its weight.
fn force(si: f64, dimension: snell_units::Dimension) -> f64 {
    if dimension == snell_units::Dimension::MASS {
        si * snell_units::STANDARD_GRAVITY
    } else {
        si
    }
}

fn colours(given: &Given<'_>, joint: Option<Joint>) -> Vec<String> {
    let colours = given.all(joint, Take::Colour);
    colours
        .map(|fit| fit.line.written(fit.expr.span).to_owned())
        .collect()
}

fn words(given: &Given<'_>) -> Vec<String> {
    let is_word = |fit: &&Fit<'_>| matches!(fit.take, Take::Word(_));
    let words = given.fits.iter().filter(is_word);
    words
        .map(|fit| fit.line.written(fit.expr.span).to_owned())
        .collect()
}

/// `2 times 0.4 g`: how many of one mass.
fn count(mass: Fit<'_>) -> Option<u32> {
    let ExprKind::Product(first, _) = &mass.expr.kind else {
        return None;
    };
    first.single()?.count()
}
