//! What became of rigs: born, changed, renamed, dropped, told from the states
//! that a history went through, and the days on which they were fished.
//!
//! It knows commits as numbers with parents and days; where they are kept, and
//! how a file of one is read, is for those who have a history.

mod exact;
mod file;
mod held;
mod history;
mod line;
mod outings;
mod runs;
mod said;
mod series;
mod stood;
mod story;
mod suggested;
mod sums;
mod taken;
mod threads;

pub use file::{Caught, FileRead, Outed, bare, drawn, whole};
pub use history::{Changed, History};
pub use outings::{Entered, FishOnDay, OnDay, RigsOfDays, fished};
pub use runs::{Run, Told, told};
pub use said::{FishLength, Said};
pub use series::{Drawn, Point, Series};
pub use stood::{Seen, Stood};
pub use story::{Commit, Event, Followed, Happened, RigStory, Side};
pub use suggested::{Differs, Suggested, Sure, Way, suggested};
pub use sums::{Fished, Sum};
pub use taken::Taken;
