//! In which facts what is read of a card differs from what its author meant.

use serde_json::Value;

/// What is written otherwise and means the same.
const SAME: [(&str, &str); 18] = [
    ("mono", "nylon"),
    ("monofilament", "nylon"),
    ("fluoro", "fluorocarbon"),
    ("triple surgeon's", "triple surgeon"),
    ("double surgeon's", "double surgeon"),
    ("surgeon's", "surgeon"),
    ("overhand", "overhand"),
    ("3 turn water", "three turn surgeon"),
    ("four turn water", "four turn surgeon"),
    ("tucked half blood", "improved clinch"),
    ("half blood", "clinch"),
    ("no name", ""),
    ("wire", "steel"),
    // What flies on a team are fished as.
    ("wet", "team"),
    ("swing", "team"),
    ("loop", "knot"),
    ("ptn", "pheasant tail nymph"),
    ("wt", "weight"),
];

/// A word without its case, its hyphens, and the word `knot`.
fn plain(word: &str) -> String {
    let word = word.to_lowercase().replace('-', " ");
    let word = word.trim_end_matches(" knot");
    let same = SAME.iter().find(|(written, _)| *written == word);
    same.map_or(word, |(_, plain)| plain).to_owned()
}

/// What a float is called that has no other name.
const FLOATS: [&str; 5] = ["float", "indicator", "bobber", "bung", "strike indicator"];

/// A name without the colours and hook kinds that are told besides: whether they belong to it is a matter of taste.
fn bare(name: Option<&str>, told: &[String]) -> String {
    let name = plain(name.unwrap_or_default());
    let words = name
        .split(' ')
        .filter(|word| !told.iter().any(|told| told == word));
    words.collect::<Vec<_>>().join(" ")
}

/// Whether a bead in 64ths of an inch is sold by another size in millimetres, which is a little larger or smaller.
fn is_sold_as(got: f64, meant: f64) -> bool {
    const MOST: f64 = 0.045;
    let parts = meant / 25.4 * 64.0;
    (parts - parts.round()).abs() < 1e-4 && (got - meant).abs() <= MOST * meant
}

/// The texts of a list; none where it is no list.
fn texts(list: &Value) -> impl Iterator<Item = &str> {
    list.as_array().into_iter().flatten().filter_map(Value::as_str)
}

/// The facts of a card in which a program and its author differ, one line each.
#[derive(Default)]
pub struct Difference {
    pub all: Vec<String>,
    /// Those of them that are figures.
    pub figures: Vec<String>,
}

impl Difference {
    fn word(&mut self, what: &str, got: Option<&str>, meant: Option<&str>) {
        if got.map(plain) != meant.map(plain) {
            self.all.push(format!("{what}: {got:?}, and {meant:?} was meant"));
        }
    }

    fn number(&mut self, what: &str, got: Option<f64>, meant: Option<f64>) {
        let same = match (got, meant) {
            (Some(got), Some(meant)) => (got - meant).abs() <= 1e-3 * meant.abs(),
            (None, None) => true,
            (Some(_), None) | (None, Some(_)) => false,
        };
        if !same {
            let told = format!("{what}: {got:?}, and {meant:?} was meant");
            self.all.push(told.clone());
            self.figures.push(told);
        }
    }

    fn part(&mut self, got: &Value, meant: &Value) {
        let kind = meant["kind"].as_str().unwrap();
        let what = |fact: &str| format!("{kind}, {fact}");
        let value = |name: &str| got["values"][name].as_f64();
        let thousandth = |of: Option<f64>| of.map(|of| of * 1e3);
        self.word("kind", got["kind"].as_str(), Some(kind));
        self.number(&what("length"), value("length"), meant["length_m"].as_f64());
        let diameter = value("diameter").or(value("lower"));
        self.number(
            &what("diameter"),
            thousandth(diameter),
            meant["diameter_mm"].as_f64(),
        );
        self.number(&what("strength"), value("rated"), meant["strength_N"].as_f64());
        let (bead, meant_bead) = (thousandth(value("bead")), meant["bead_mm"].as_f64());
        if !bead
            .zip(meant_bead)
            .is_some_and(|(got, meant)| is_sold_as(got, meant))
        {
            self.number(&what("bead"), bead, meant_bead);
        }
        if let Some(butt) = meant["butt_mm"].as_f64() {
            self.number(&what("upper end"), thousandth(value("upper")), Some(butt));
        }
        self.word(&what("hook"), got["hook"].as_str(), meant["hook"].as_str());
        let words: Vec<&str> = texts(&got["words"]).collect();
        let material = meant["material"].as_str().or(meant["bead_material"].as_str());
        // How a piece is made may stand for what it is made of, and a fly without a bead be of foam.
        let is_made_so = material.is_some_and(|material| words.contains(&material));
        let has_bead =
            bead.is_some() || material.is_some() || !["inline", "point", "dropper"].contains(&kind);
        if kind != "float" && !is_made_so && has_bead {
            self.word(&what("material"), got["material"].as_str(), material);
        }
        self.names(got, meant);
        self.word(&what("knot"), got["knot"].as_str(), meant["knot"].as_str());
        if let Some(count) = meant["count"].as_f64() {
            self.number(&what("count"), got["count"].as_f64(), Some(count));
        }
        if let Some(hook) = meant["hook_kind"].as_str() {
            let said = words.contains(&hook).then_some(hook);
            self.word(&what("hook's kind"), said, Some(hook));
        }
    }

    /// What a part is called, and its colours. A colour of its name may be told as one of its own, or not.
    fn names(&mut self, got: &Value, meant: &Value) {
        let kind = meant["kind"].as_str().unwrap();
        let words = || texts(&got["words"]);
        let meant_name = meant["name"].as_str();
        let own = got["name"].as_str();
        let name = match kind {
            "line" | "swivel" => own.or_else(|| words().find(|word| Some(*word) == meant_name)),
            "float" if meant_name.is_none() => own.filter(|own| !FLOATS.contains(own)),
            _ => own,
        };
        // Which number a swivel has and what a line weighs are figures, told by their own.
        let is_figure = |name: &&str| {
            let figure = name
                .trim_start_matches(['#'])
                .trim_start_matches("size ")
                .trim_end_matches(" wt");
            matches!(kind, "line" | "swivel") && figure.parse::<u8>().is_ok()
        };
        let meant_name = meant_name.filter(|name| !(own.is_none() && is_figure(name)));
        let told: Vec<String> = texts(&got["colours"])
            .chain(texts(&meant["colours"]))
            .chain(words())
            .map(plain)
            .flat_map(|told| told.split(' ').map(str::to_owned).collect::<Vec<_>>())
            .collect();
        let is_whole = kind == "line" || kind == "swivel";
        if is_whole || bare(name, &told) != bare(meant_name, &told) {
            self.word(&format!("{kind}, name"), name, meant_name);
        }
        let both = format!(
            "{} {}",
            plain(name.unwrap_or_default()),
            plain(meant_name.unwrap_or_default())
        );
        let of_name: Vec<&str> = both.split(' ').collect();
        let list = |colours: &Value| -> String {
            let colours = texts(colours).map(plain);
            let apart = colours.filter(|colour| !colour.split(' ').all(|word| of_name.contains(&word)));
            apart.collect::<Vec<_>>().join(", ")
        };
        let (got, meant) = (list(&got["colours"]), list(&meant["colours"]));
        self.word(&format!("{kind}, colours"), Some(&got), Some(&meant));
    }

    /// Holds a rig against what its author meant.
    pub fn rig(&mut self, got: &Value, meant: &Value) {
        let (parts, meant_parts) = (
            got["parts"].as_array().unwrap(),
            meant["parts"].as_array().unwrap(),
        );
        self.number("parts", Some(parts.len() as f64), Some(meant_parts.len() as f64));
        for (got, meant) in parts.iter().zip(meant_parts) {
            self.part(got, meant);
        }
        if let Some(total) = meant["total_leader_m"].as_f64() {
            self.number("total", got["measures"]["total"]["value"].as_f64(), Some(total));
        }
        if let Some(method) = meant["method"].as_str() {
            self.word("method", got["settings"]["method"].as_str(), Some(method));
        }
    }
}
