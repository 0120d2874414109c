//! A walk as plain data.

use serde::Serialize;

use super::walk::{Claim, Walk};
use super::walk_stage::{Part, SetStage};
use super::walk_words::Teller;
use crate::base::said::word;
use crate::report::Exact;
use crate::solve::Combination;
use crate::solve::torque::Torques;
use crate::words::MemberAt;

/// A walk through the power flow of a combination.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Walk"))]
pub struct WalkReport {
    /// Its steps, in order.
    pub steps: Vec<StepReport>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "WalkStep"))]
pub struct StepReport {
    /// What is said, in sentences.
    pub sentences: Vec<String>,
    /// Ids of the shafts it is about.
    pub shafts: Vec<String>,
    /// Ids of the elements it is about.
    pub elements: Vec<String>,
    /// Ids of the shafts whose speeds are known once it is told.
    pub known: Vec<String>,
    /// What each member of the sets that it is about does; empty where it is about something else.
    pub parts: Vec<PartReport>,
}

/// What a member does in its set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "WalkPart"))]
pub struct PartReport {
    /// What people call its set.
    pub set: String,
    /// `sun`, `ring`, `carrier`…
    pub role: &'static str,
    /// Id of its shaft; `null` for the housing.
    pub shaft: Option<String>,
    /// What it does, in a word or two.
    pub part: String,
    /// Per input turn.
    pub speed: Option<Exact>,
    /// On the set, per unit of input torque.
    pub torque: Option<Exact>,
}

impl WalkReport {
    /// Walks through a combination that is settled for drive.
    pub fn of(combination: &Combination<'_>) -> Self {
        let walk = Walk::of(combination);
        let teller = Teller::of(combination);
        let torques = Torques::of(combination);
        let scenario = combination.train().scenario();
        let shafts = |shafts: &[usize]| {
            let ids = shafts
                .iter()
                .map(|&shaft| scenario.shafts[shaft].id.clone());
            ids.collect()
        };
        let told = teller.all(&walk).into_iter().zip(&walk.steps);
        let steps = told.map(|(sentences, step)| {
            let sets: &[SetStage] = match &step.claim {
                Claim::Stage(stage) => &stage.sets,
                _ => &[],
            };
            let parts = sets.iter().flat_map(|set| {
                let members = 0..set.parts.len();
                members.map(move |member| (set, member))
            });
            StepReport {
                sentences,
                shafts: shafts(&step.shafts),
                elements: step
                    .elements
                    .iter()
                    .map(|element| scenario.elements[element].id().to_owned())
                    .collect(),
                known: shafts(&step.known),
                parts: parts
                    .map(|(set, member)| part(combination, torques.as_ref(), set, member))
                    .collect(),
            }
        });
        Self {
            steps: steps.collect(),
        }
    }
}

fn part(
    combination: &Combination<'_>,
    torques: Option<&Torques>,
    set: &SetStage,
    member: usize,
) -> PartReport {
    let (train, at): (_, MemberAt) = (combination.train(), (set.coupling, member));
    let facts = train.scenario().couplings[at.0].facts();
    let of_members = facts.members();
    let body = train.members(at.0)[member];
    let shaft = of_members.get(member).map(|member| member.shaft.to_owned());
    let words = match set.reaction {
        Some(reaction) if reaction == member => match set.parts[member] {
            Part::Delivers => "walk-part-reacts-delivers",
            _ => "walk-part-reacts-drives",
        },
        _ => set.parts[member].key(),
    };
    let torque = torques.and_then(|torques| torques.member(at.0, member));
    PartReport {
        set: facts.label().to_owned(),
        role: of_members
            .get(member)
            .map_or("", |member| member.role.word()),
        shaft: shaft.filter(|_| body != crate::train::Body::Housing),
        part: word(words).to_owned(),
        speed: combination.body_speed(body).as_ref().map(Exact::from),
        torque: torque.map(Exact::from),
    }
}
