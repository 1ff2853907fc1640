//! Sink times of all draws out of some, for a sink takes ten times as long as a drift.
//!
//! Some are sunk. The rest are read from a surface through them where it holds. Where it does not, they are sunk in long steps,
//! and put right by what those come to on draws that are sunk in the usual steps too.

use super::answer::Answer;
use super::draws::{COLUMNS, DRAWS, draws};
use super::surface::{FITTED, Sunk, Surface, TRIED};
use crate::math::{exp, ln};

/// Steps as long as usual, and long ones: on twelve rigs the ratio of both differs by 0.2 to 1.6 % from draw to draw.
const USUAL: f64 = 1.0;
const LONG: f64 = 3.0;
/// How far apart the ratios of both may lie, as a share of the deviation of the times. Else the rest are sunk in the usual
/// steps.
const AGREE: f64 = 0.1;

/// A draw with its time, where it comes down.
type Timed = (usize, Option<f64>);

/// Fills in how long the sinks of draws take, by a function that sinks a draw in steps so many times as long as usual, and
/// what the sinks of one input at a time came to.
pub(super) fn fill(
    answers: &mut [Option<Answer>],
    told: &Answer,
    apart: &[[Option<Answer>; 2]],
    sink: impl Fn(usize, f64) -> Option<f64>,
) {
    let drifting: Vec<usize> = (0..DRAWS).filter(|draw| answers[*draw].is_some()).collect();
    let (some, rest) = drifting.split_at(drifting.len().min(FITTED + TRIED));
    let some: Vec<Timed> = some.iter().map(|draw| (*draw, sink(*draw, USUAL))).collect();
    let (fitted, tried) = some.split_at(some.len().min(FITTED));
    let surface = one_at_a_time(told, apart).and_then(|mut sunk| {
        sunk.extend(times(fitted)?);
        Surface::fit(&sunk, &times(tried)?)
    });
    let rest = match surface {
        Some(surface) => rest
            .iter()
            .map(|draw| (*draw, Some(exp(surface.at(&draws()[*draw])))))
            .collect(),
        None => in_long_steps(&some, rest, sink),
    };
    for (draw, time) in some.into_iter().chain(rest) {
        if let Some(answer) = &mut answers[draw] {
            answer.sink = time;
        }
    }
}

/// Where all of some draws come down, their times.
fn times(known: &[Timed]) -> Option<Vec<Sunk>> {
    let time = |(draw, time): &Timed| Some((draws()[*draw], (*time)?));
    known.iter().map(time).collect()
}

fn one_at_a_time(told: &Answer, apart: &[[Option<Answer>; 2]]) -> Option<Vec<Sunk>> {
    let mut sunk = vec![([0.0; COLUMNS], told.sink?)];
    for (input, pair) in apart.iter().enumerate() {
        for (answer, off) in pair.iter().zip([-1.0, 1.0]) {
            let mut inputs = [0.0; COLUMNS];
            inputs[input] = off;
            sunk.push((inputs, answer.as_ref()?.sink?));
        }
    }
    Some(sunk)
}

/// The times of the rest in long steps, put right by those of some that are known.
fn in_long_steps(known: &[Timed], rest: &[usize], sink: impl Fn(usize, f64) -> Option<f64>) -> Vec<Timed> {
    let sunk: Vec<(usize, f64)> = known
        .iter()
        .filter_map(|(draw, time)| Some((*draw, (*time)?)))
        .collect();
    let ratios = sunk
        .iter()
        .take(TRIED)
        .map(|(draw, time)| Some(ln(time / sink(*draw, LONG)?)));
    let ratios: Option<Vec<f64>> = ratios.collect();
    let times: Vec<f64> = sunk.iter().map(|(_, time)| ln(*time)).collect();
    let factor = ratios.and_then(|ratios| factor(&ratios, &times));
    let time = |draw: usize| match factor {
        Some(factor) => sink(draw, LONG).map(|time| time * factor),
        None => sink(draw, USUAL),
    };
    rest.iter().map(|draw| (*draw, time(*draw))).collect()
}

/// What times in long steps are to be multiplied by, where the ratios that were found agree on it; all by their logarithms.
fn factor(ratios: &[f64], times: &[f64]) -> Option<f64> {
    let ((mean, apart), (_, spread)) = (mean_and_deviation(ratios)?, mean_and_deviation(times)?);
    (apart <= AGREE * spread).then(|| exp(mean))
}

fn mean_and_deviation(values: &[f64]) -> Option<(f64, f64)> {
    if values.is_empty() {
        return None;
    }
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean) * (value - mean)).sum();
    Some((mean, (squares / count).sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    /// Sinks whose times jump, so that no surface holds: those of all draws, and how many were sunk in the usual steps.
    fn sunk(by_long: impl Fn(usize) -> f64) -> (Vec<Option<f64>>, usize) {
        let answer = Answer {
            flies: Vec::new(),
            speed: 0.5,
            pull: 0.0,
            load: 0.0,
            on_bed: false,
            needed: None,
            sink: Some(1.0),
        };
        let apart = vec![[Some(answer.clone()), Some(answer.clone())]; COLUMNS];
        let mut answers = vec![Some(answer.clone()); DRAWS];
        let usual = Cell::new(0);
        fill(&mut answers, &answer, &apart, |draw, long| {
            if long > USUAL {
                return Some(right(draw) * by_long(draw));
            }
            usual.set(usual.get() + 1);
            Some(right(draw))
        });
        let times = answers
            .into_iter()
            .map(|answer| answer.and_then(|answer| answer.sink));
        (times.collect(), usual.get())
    }

    fn right(draw: usize) -> f64 {
        if draw.is_multiple_of(3) { 1.0 } else { 2.0 }
    }

    #[test]
    fn long_steps_are_put_right_by_some_usual_ones() {
        let (times, usual) = sunk(|_| 1.04);
        assert_eq!(usual, FITTED + TRIED);
        for (draw, time) in times.into_iter().enumerate() {
            assert!((time.expect("it sinks") / right(draw) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn where_long_steps_say_something_else_the_usual_ones_are_taken() {
        let (times, usual) = sunk(|draw| if draw.is_multiple_of(2) { 1.5 } else { 0.7 });
        assert_eq!(usual, DRAWS);
        assert!(
            times
                .into_iter()
                .enumerate()
                .all(|(draw, time)| time == Some(right(draw)))
        );
    }
}
