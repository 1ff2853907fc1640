//! What outings come to: by rig, water, fly, species and hour.

use super::outings::{FishOnDay, OnDay};
use crate::story::RigStory;
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::blocks::Came;
use std::collections::BTreeMap;

/// What outings come to for one rig, water, fly, species or hour.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Sum {
    /// Its name.
    pub name: String,
    /// How many outings.
    pub outings: u32,
    /// How many fish were caught.
    pub fish: u32,
    /// How many were hooked and got off.
    pub lost: u32,
    /// The longest that was caught, as it was written.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub longest: Option<String>,
}

/// All outings, and their sums.
#[derive(Clone, Debug, Default)]
pub struct Fished {
    /// In the order of their days.
    pub days: Vec<OnDay>,
    /// By rig.
    pub by_rig: Vec<Sum>,
    /// By water.
    pub by_water: Vec<Sum>,
    /// By fly.
    pub by_fly: Vec<Sum>,
    /// By species, as far as it is said.
    pub by_species: Vec<Sum>,
    /// By hour of the day, as far as it is said.
    pub by_hour: Vec<Sum>,
}

/// What stands for what nobody wrote down.
const UNSAID: &str = "not said";

/// What some of the fish of one outing come to.
#[derive(Clone, Default)]
struct Tally {
    fish: u32,
    lost: u32,
    longest: Option<(f64, String)>,
}

impl Tally {
    fn add(&mut self, fish: &FishOnDay) {
        match fish.came {
            Came::ToHand if fish.count == 0 => return,
            Came::ToHand => self.fish += fish.count,
            Came::Off => {
                self.lost += fish.count;
                // Nobody measured it.
                return;
            }
        }
        let lengths = fish.said.lengths.iter();
        self.longer(lengths.map(|length| (length.metres, length.text.clone())));
    }

    fn longer(&mut self, lengths: impl IntoIterator<Item = (f64, String)>) {
        let all = self.longest.take().into_iter().chain(lengths);
        self.longest = all.max_by(|one, other| one.0.total_cmp(&other.0));
    }
}

impl Fished {
    /// All sums, each with the word for what it is by.
    pub fn sums(&self) -> [(&'static str, &[Sum]); 5] {
        [
            ("rig", &self.by_rig),
            ("water", &self.by_water),
            ("fly", &self.by_fly),
            ("species", &self.by_species),
            ("hour", &self.by_hour),
        ]
    }

    /// Sums outings up.
    pub fn of(days: Vec<OnDay>, stories: &[RigStory]) -> Self {
        let unsaid = || UNSAID.to_owned();
        let rig = |day: &OnDay| day.rig_name(stories).to_owned();
        let water = |day: &OnDay| day.water.clone().unwrap_or_else(unsaid);
        let whole = |name: &dyn Fn(&OnDay) -> String| {
            let tallies = days.iter().map(|day| {
                let mut tally = Tally::default();
                day.fish.iter().for_each(|fish| tally.add(fish));
                (name(day), tally)
            });
            sums(tallies)
        };
        let parts = |name: &dyn Fn(&FishOnDay) -> Option<String>| {
            let of_day = |day: &OnDay| {
                let mut tallies: BTreeMap<String, Tally> = BTreeMap::new();
                for fish in &day.fish {
                    if let Some(name) = name(fish) {
                        tallies.entry(name).or_default().add(fish);
                    }
                }
                tallies
            };
            sums(days.iter().flat_map(of_day))
        };
        let mut by_hour = parts(&|fish| {
            let hour = fish.said.time.as_ref()?.split(':').next()?;
            Some(format!("{hour:0>2}:00"))
        });
        by_hour.sort_by(|one, other| one.name.cmp(&other.name));
        Self {
            by_rig: whole(&rig),
            by_water: whole(&water),
            by_fly: parts(&|fish| Some(fish.fly.clone().unwrap_or_else(unsaid))),
            by_species: parts(&|fish| fish.said.species.map(str::to_owned)),
            by_hour,
            days,
        }
    }
}

/// One outing a pair; the most fish first.
fn sums(all: impl Iterator<Item = (String, Tally)>) -> Vec<Sum> {
    let mut sums: Vec<(String, u32, Tally)> = Vec::new();
    for (name, tally) in all {
        match sums.iter_mut().find(|(known, _, _)| *known == name) {
            Some((_, outings, sum)) => {
                *outings += 1;
                sum.fish += tally.fish;
                sum.lost += tally.lost;
                sum.longer(tally.longest);
            }
            None => sums.push((name, 1, tally)),
        }
    }
    let sum = |(name, outings, tally): (String, u32, Tally)| Sum {
        name,
        outings,
        fish: tally.fish,
        lost: tally.lost,
        longest: tally.longest.map(|(_, text)| text),
    };
    let mut sums: Vec<Sum> = sums.into_iter().map(sum).collect();
    sums.sort_by(|one, other| other.fish.cmp(&one.fish).then_with(|| one.name.cmp(&other.name)));
    sums
}
