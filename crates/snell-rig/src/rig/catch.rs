//! Which fly of a rig a catch was made on.

use super::chain::{Chain, FlyOn};
use crate::blocks::Catch;
use crate::keywords::PartKind;
use crate::thing::FlyId;
use crate::world::World;
use snell_finding::{Code, Finding};

impl Catch<'_> {
    /// Which of a rig's flies it was caught on.
    ///
    /// # Errors
    /// The rig has no such fly.
    pub fn fly(&self, world: &World<'_>, chain: &Chain<'_>) -> Result<Option<FlyId>, Box<Finding>> {
        let Some((word, number)) = self.on else {
            return Ok(None);
        };
        let kind = PartKind::of(&word.folded);
        let at = |(id, fly): (FlyId, FlyOn<'_, '_>)| {
            let label = fly.part.label();
            let labelled = label.is_some_and(|(_, label)| label.folded == word.folded);
            let named = fly.tied.block.is_some_and(|id| world.name(id) == &*word.folded);
            (number.is_none() && (labelled || named) || Some(fly.part.kind()) == kind).then_some(id)
        };
        let all: Vec<FlyId> = chain.flies().filter_map(at).collect();
        let found = match number {
            None => all.first(),
            Some(number) => all.get(usize::from(number).wrapping_sub(1)),
        };
        match found {
            Some(id) => Ok(Some(*id)),
            None => Err(Box::new(self.no_such_fly(chain))),
        }
    }

    fn no_such_fly(&self, chain: &Chain<'_>) -> Finding {
        let written = self.on.map_or("", |(word, _)| self.line.spelled(word));
        let message = format!("the rig had no fly `{written}` that day");
        let flies = chain.flies().map(|(_, fly)| format!("`{}`", fly.tied.name));
        let flies: Vec<String> = flies.collect();
        let finding = Finding::fault(Code::FlyNotOnRig, self.place, message);
        finding.help(format!(
            "name one of its flies, its label, or where it sits (`point`, `dropper 2`): {}",
            flies.join(", ")
        ))
    }
}
