//! The units in which a rig is written.

use super::core::Evaluation;
use crate::value::Value;
use snell_units::{Dimension, System};

/// Forces below this are those of flies and of line under water, in newtons: everybody tells them in grams.
const OF_FLIES: f64 = 0.5;

impl Evaluation<'_, '_> {
    /// The units that the rig is written in: those of its first length.
    pub fn system(&self) -> System {
        let sections = self.rig.chain.sections();
        let mut lengths = sections.filter_map(|(id, _)| self.section_length(id).ok()?.system);
        lengths.next().unwrap_or(System::Metric)
    }

    /// A value as the author of the rig would write it. What comes from sizes and figures alone is metric if
    /// it is a diameter or a mass, for those are written so even by people who count in feet. What line bears is
    /// told in pounds to them.
    pub fn written(&self, value: &Value) -> String {
        value.written_in(self.system_of(value))
    }

    /// The units in which to write a value of this rig.
    pub fn system_of(&self, value: &Value) -> System {
        let size = value.si().abs();
        let fine = match value.dimension() {
            Dimension::LENGTH => size != 0.0 && size < 0.005,
            Dimension::FORCE => size < OF_FLIES,
            _ => true,
        };
        let own = || if fine { System::Metric } else { self.system() };
        value.system.unwrap_or_else(own)
    }
}
