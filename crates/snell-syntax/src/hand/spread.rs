//! Two quantities that are the ends of one, and those that only stand beside each other: `2-3 ft`, `0.50 -> 0.15 mm`.

use super::item::{Kind, SHORTEST_PART};
use super::phrases::Says;
use super::reader::Reader;
use super::trade::Part;

/// What stands between two quantities, and how many atoms it is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Between {
    To,
    Dash,
    /// `->`, `→`: from one end of a taper to the other.
    Arrow(usize),
    /// `0.53/0.20 mm`
    Stroke,
}

impl Between {
    const fn atoms(self) -> usize {
        match self {
            Self::To | Self::Dash | Self::Stroke => 1,
            Self::Arrow(atoms) => atoms,
        }
    }

    /// Whether what it joins can only be the two ends of a taper.
    const fn is_of_taper(self) -> bool {
        match self {
            Self::Arrow(_) | Self::Stroke => true,
            Self::To | Self::Dash => false,
        }
    }
}

impl Reader<'_> {
    fn between(&self, ahead: usize) -> Option<Between> {
        if self.word(ahead).is_some_and(|word| matches!(&*word, "to" | "à")) {
            return Some(Between::To);
        }
        if self.word(ahead).as_deref() == Some("down") && self.word(ahead + 1).as_deref() == Some("to") {
            return Some(Between::Arrow(2));
        }
        let glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        if self.sign(ahead, &['-', '–', '—', '=']) && self.sign(ahead + 1, &['>']) && glued(ahead + 1) {
            return Some(Between::Arrow(2));
        }
        if self.sign(ahead, &['>', '→']) {
            return Some(Between::Arrow(1));
        }
        if self.sign(ahead, &['/']) && glued(ahead) && glued(ahead + 1) {
            return Some(Between::Stroke);
        }
        self.sign(ahead, &['-', '–', '—']).then_some(Between::Dash)
    }

    /// A quantity of so many atoms, alone or with another that it goes up to.
    pub(super) fn alone_or_spread(&mut self, first: (Kind, String), count: usize) -> Option<()> {
        let between = self.between(count);
        let start = count + between.map_or(0, Between::atoms);
        let second = between
            .filter(|_| self.is_number(start))
            .map(|between| Some((between, self.single(start)?)));
        let Some(Some((between, (second, more)))) = second else {
            self.push(first.0, count, Some(first.1));
            return Some(());
        };
        let whole = start + more;
        let dash = between == Between::Dash;
        let apart = dash && !self.get(count)?.glued;
        let kind = match (first.0, second.0) {
            (Kind::Hundredths, Kind::Hundredths) => Kind::Hundredths,
            (Kind::Hundredths, Kind::Length(thin)) if thin < SHORTEST_PART => Kind::Hundredths,
            (Kind::Length(thick), Kind::Length(thin))
                if between.is_of_taper()
                    && self.part.is_line()
                    && thick < SHORTEST_PART
                    && thin < SHORTEST_PART =>
            {
                Kind::Hundredths
            }
            (Kind::X, Kind::X) if between != Between::Stroke => Kind::X,
            // `5X/6X` are two.
            _ if between == Between::Stroke => {
                self.push(first.0, count, Some(first.1));
                return Some(());
            }
            // `9 ft down to 4 lb`
            (Kind::Length(long), Kind::X | Kind::Mass(_))
                if between == Between::Arrow(2) && long >= SHORTEST_PART =>
            {
                self.push(first.0, count, Some(first.1));
                return Some(());
            }
            _ if between.is_of_taper() => return None,
            // `6 to 2 ft` has lost a unit.
            (Kind::Bare, Kind::Length(_) | Kind::Speed) if self.value(0)? > self.value(start)? => {
                return None;
            }
            (Kind::Bare, kind @ (Kind::Length(_) | Kind::Speed)) => kind,
            // `60 m to 1,2 m` has lost a letter of a unit.
            (Kind::Length(low), Kind::Length(high)) if self.part == Part::Water && low > high => return None,
            // `2.70 m to 0.18 mm`: how long it is, and how thick its tip.
            (Kind::Length(long), Kind::Length(thin))
                if between == Between::To
                    && long >= SHORTEST_PART
                    && thin < SHORTEST_PART
                    && (self.is_built() || self.is_leader()) =>
            {
                self.push(first.0, count, Some(first.1));
                return Some(());
            }
            (Kind::Length(low), Kind::Length(high)) => {
                // A dash between two lengths where the second is the less takes one from the other.
                let of_water = self.part == Part::Water && high > low;
                // `4 m - 0.40 mm nylon`: a length, and how thick it is.
                let thin = high < SHORTEST_PART && low >= SHORTEST_PART;
                if apart && self.part.is_line() && thin && self.parts_here(whole) {
                    self.push(first.0, count, Some(first.1));
                    return Some(());
                }
                if apart && !of_water {
                    return None;
                }
                Kind::Length(low.max(high))
            }
            (Kind::Bare, Kind::X) => Kind::X,
            // A water has one; two are told in words.
            (Kind::Bare | Kind::Temperature, Kind::Temperature) => Kind::Note,
            // `tapered 12 ft to 5X`
            (Kind::Length(low), Kind::X | Kind::Hundredths)
                if !dash
                    && low >= SHORTEST_PART
                    && (self.is_built() || between == Between::To && self.is_leader()) =>
            {
                self.push(first.0, count, Some(first.1));
                return Some(());
            }
            (Kind::Speed, Kind::Speed) => Kind::Speed,
            // `15 ft - 12 lb`: the dash parts phrases.
            _ if apart => {
                self.push(first.0, count, Some(first.1));
                return Some(());
            }
            _ => return None,
        };
        let strict = format!("{} to {}", first.1, second.1);
        // What is written close stays so: `2-3 ft`, `5X-7X`.
        let close = dash && !apart;
        let written = self.atoms[self.at].span.to(self.atoms[self.at + whole - 1].span);
        let one_unit = matches!(first.0, Kind::Bare | Kind::X);
        let strict = if close && one_unit && kind != Kind::Hundredths {
            written.of(self.line).to_owned()
        } else {
            strict
        };
        self.push(kind, whole, Some(strict));
        Some(())
    }

    /// A leader that is bought thins to its tip: `leader 6 ft to 4X`.
    fn is_leader(&self) -> bool {
        let opens = self.line.trim_start().to_ascii_lowercase();
        self.part == Part::Piece && opens.starts_with("leader")
    }

    /// Whether it was said before how the line is made.
    fn is_built(&self) -> bool {
        self.line
            .trim_start()
            .to_ascii_lowercase()
            .starts_with("tapered leader")
            || self.found.iter().any(|item| item.says() == Some(Says::Build))
    }

    /// Whether a phrase of its own stands so far ahead, or what line is made of.
    fn parts_here(&self, ahead: usize) -> bool {
        let signs = [',', ';', '|', '-', '–', '—', '('];
        self.says(ahead, Says::Line) || self.sign(ahead, &signs)
    }
}
