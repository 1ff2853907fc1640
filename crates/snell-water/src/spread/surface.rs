//! placeholder

use super::Answer;

pub(super) struct Surface;
impl Surface {
    pub fn fit(_told: &Answer, _apart: &[[Option<Answer>; 2]], _timed: impl Fn(&[f64; 9]) -> Option<Answer>) -> Self { Self }
    pub fn fill(&self, draws: &mut [Option<Answer>], timed: impl Fn(&[f64; 9]) -> Option<Answer>) {
        for (d, off) in draws.iter_mut().zip(super::draws()) { if d.is_some() { *d = timed(off); } }
    }
}
