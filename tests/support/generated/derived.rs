//! Rigs made from others: a few lines changed, and sound again with them.

use super::rigs::{Kind, Made};
use super::{Book, words};

impl Book {
    pub(super) fn derived(&mut self, name: String) {
        let from = self.made.len().saturating_sub(40);
        let at = self.chance.within(from..self.made.len());
        let base = self.made[at].clone();
        let mut made = Made {
            name,
            steps: base.steps + 1,
            times: None,
            ..base.clone()
        };
        let unit = made.unit;
        self.head(&made.name.clone(), Some(&base.name));
        // The two droppers of a team stay.
        if made.heaviest.is_some() && made.kind != Kind::Team && self.chance.in_ten(3) {
            self.body("remove", "dropper");
            made.heaviest = None;
        }
        let relined = made.lower > 0 && self.chance.in_ten(4);
        if relined {
            made.lower = match made.kind {
                Kind::Team => self.length(unit, 18..34),
                _ => self.lower(unit, made.depth),
            };
        }
        made.upper = match (made.kind, made.depth) {
            (Kind::TightLine, Some(depth)) => self.upper(unit, depth, made.lower),
            (Kind::Dry, _) => self.a_fifth(made.above),
            (Kind::Team, _) => self.length(unit, 18..34),
            _ => self.length(unit, 24..64),
        };
        let wide = self.chance.in_ten(4);
        let length = unit.write(made.upper, wide);
        self.body("change", &format!("upper to {length}"));
        if self.chance.in_ten(7) {
            let fly = match made.kind {
                Kind::Dry => self.dry_fly(),
                _ => self.point(made.suited, made.heaviest),
            };
            self.body("change", &format!("point to {fly}"));
        }
        if relined {
            let length = unit.write(made.lower, false);
            let stuff = match made.kind {
                Kind::Team => self.chance.pick(words::SOFT_LOW).to_owned(),
                _ => self.stuff(made.suited.lowers, made.suited.upper_x + 1),
            };
            self.body("change", &format!("lower to {length} of {stuff}"));
        }
        self.finish(made);
    }
}
