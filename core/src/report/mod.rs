//! Results as plain data: the one place where answers turn into what JSON and a page can hold.
//!
//! The inner types stay free of any wire format; the command-line example and the web boundary
//! both hand out these. Field names are camelCase for the page.

mod capacity;
mod effort;
mod losses;
mod mesh_orders;
mod operating;
mod working;

use levertrain_exact::{Fraction, Speeds};
use serde::Serialize;

pub use capacity::{CapacityReport, ElementCapacity};
pub use effort::{CouplingEffort, EffortReport, ElementEffort, ShareReport};
pub use losses::{DragLoss, LossReport, MeshLoss};
pub use mesh_orders::MeshOrderReport;
pub use operating::{OperatingReport, PointReport};
pub use working::{EquationReport, FormulaReport, WorkingReport};

use crate::base::element_set::ElementSet;
use crate::model::coupling::Coupling;
use crate::solve::Combination;
use crate::solve::chart::RangeChart;
use crate::solve::settle::Verdict;
use crate::train::{Body, Train};
use crate::words::{Fact, Spare, Words};

/// A number exactly and as a decimal.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Exact {
    /// `12/5`, `-2`.
    pub fraction: String,
    /// The nearest `f64`.
    pub decimal: f64,
}

impl From<&Fraction> for Exact {
    fn from(value: &Fraction) -> Self {
        Self {
            fraction: value.to_string(),
            decimal: value.to_f64(),
        }
    }
}

fn exact(value: Option<Fraction>) -> Option<Exact> {
    value.as_ref().map(Exact::from)
}

impl Verdict {
    /// The verdict as one word of the wire format.
    pub fn key(&self) -> &'static str {
        match self {
            Self::Settled => "settled",
            Self::Ambiguous(_) => "ambiguous",
            Self::Contradictory => "contradictory",
        }
    }
}

/// What one combination does. Speeds are per input turn; `null` is a member that floats.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Combination"))]
#[serde(rename_all = "camelCase")]
pub struct CombinationReport {
    /// Ids of the applied elements; one-way clutches, which lock by themselves, are left out.
    pub applied: Vec<String>,
    /// `driving`, `over-applied`, `neutral`, `output-held` or `tied-up`.
    #[cfg_attr(feature = "types", ts(type = "StateKey"))]
    pub state: &'static str,
    /// Input speed over output speed.
    pub ratio: Option<Exact>,
    /// How many speeds could be chosen independently.
    pub degrees_of_freedom: usize,
    /// How many applied elements take away no freedom.
    pub surplus: usize,
    /// Every shaft.
    pub shafts: Vec<ShaftReport>,
    /// Every shift element.
    pub elements: Vec<ElementReport>,
}

/// A shaft's speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ShaftReport {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Per input turn.
    pub speed: Option<Exact>,
}

/// A shift element's slip.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ElementReport {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// `brake`, `clutch` or `one-way`.
    #[cfg_attr(feature = "types", ts(type = "ElementKind"))]
    pub kind: &'static str,
    /// Whether it is applied, or locks.
    pub applied: bool,
    /// Speed of its first end minus that of its second, per input turn.
    pub slip: Option<Exact>,
}

/// The parts of an answer that explain it, computed for one combination at a time.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct Explanation {
    /// The state in a word or two.
    pub state_words: &'static str,
    /// The answer in one short line.
    pub answer: String,
    /// Who holds, who drives, who delivers.
    pub sentences: Vec<String>,
    /// Every coupling with its members, pinions and meshes.
    pub couplings: Vec<CouplingReport>,
    /// Ids of the applied elements any one of which could be released without changing anything.
    pub releasable: Vec<String>,
    /// What fights, when tied up.
    pub fight: Option<FightReport>,
    /// Torques and powers; `null` unless the combination drives.
    pub effort: Option<EffortReport>,
}

/// A coupling's members, pinions and meshes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct CouplingReport {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Its kind in words.
    pub kind: &'static str,
    /// Its members.
    pub members: Vec<MemberReport>,
    /// Its pinions, each with its speed about its own pin.
    pub pinions: Vec<PinionReport>,
    /// Its meshes, each with its orders.
    pub meshes: Vec<MeshOrderReport>,
}

/// A member of a coupling.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Member"))]
pub struct MemberReport {
    /// `sun`, `ring`, `carrier`…
    pub role: &'static str,
    /// What its teeth, or a carrier's speed, are called in formulas: `S`, `Sa`, `R`, `C`…
    pub letter: &'static str,
    /// Id of its shaft, or `housing`.
    pub shaft: String,
    /// Its tooth count; a carrier has none.
    pub teeth: Option<u32>,
    /// Per input turn.
    pub speed: Option<Exact>,
}

/// A pinion's speed about its own pin.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct PinionReport {
    /// What to call it.
    pub name: &'static str,
    /// Its tooth count; of a stepped pinion, that of the step on the sun.
    pub teeth: u32,
    /// Tooth count of the other step of a stepped pinion.
    pub second_step: Option<u32>,
    /// Per input turn, relative to the carrier.
    pub speed: Option<Exact>,
}

/// A smallest set that fights.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct FightReport {
    /// Ids of the elements.
    pub elements: Vec<String>,
    /// Ids of the couplings.
    pub couplings: Vec<String>,
}

/// The range chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Chart"))]
pub struct ChartReport {
    /// One entry a range.
    pub ranges: Vec<RangeReport>,
    /// Largest forward ratio over the smallest.
    pub spread: Option<Exact>,
}

/// One range of the chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct RangeReport {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Ratio of this range over the next other ratio.
    pub step: Option<Exact>,
    /// `settled`, `ambiguous` or `contradictory`: how its one-way clutches settle.
    #[cfg_attr(feature = "types", ts(type = "OneWays"))]
    pub one_ways: &'static str,
    /// Whether it holds the output back when the load drives.
    pub engine_braking: bool,
    /// What it does.
    #[serde(flatten)]
    pub combination: CombinationReport,
}

/// A tooth rule that a coupling does not satisfy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct WarningReport {
    /// Id of the coupling.
    pub coupling: String,
    /// The rule with its numbers, as a sentence.
    pub text: String,
}

impl From<&Combination<'_>> for CombinationReport {
    fn from(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        let scenario = train.scenario();
        let mut speeds = Speeds::default();
        combination.shaft_speeds(&mut speeds);
        let shafts = scenario
            .shafts
            .iter()
            .zip(speeds.iter())
            .map(|(shaft, speed)| ShaftReport {
                id: shaft.id.clone(),
                label: shaft.label.clone(),
                speed: exact(speed),
            });
        let elements = scenario
            .elements
            .iter()
            .enumerate()
            .map(|(index, element)| ElementReport {
                id: element.id().to_owned(),
                label: element.label().to_owned(),
                kind: element.kind(),
                applied: combination.applied().contains(index),
                slip: exact(combination.slip(index)),
            });
        Self {
            applied: element_ids(train, combination.applied().minus(train.one_ways())),
            state: combination.state().key(),
            ratio: combination.state().ratio().map(Exact::from),
            degrees_of_freedom: combination.degrees_of_freedom(),
            surplus: combination.surplus(),
            shafts: shafts.collect(),
            elements: elements.collect(),
        }
    }
}

impl From<&Combination<'_>> for Explanation {
    fn from(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        let couplings = &train.scenario().couplings;
        let facts = Fact::all(combination);
        let words = Words::told(combination, &facts);
        // To find out takes long where many one-way clutches settle anew.
        let known = facts.iter().find_map(|fact| match fact {
            Fact::Spare(spare) => Some(spare.idle),
            _ => None,
        });
        let idle = known.unwrap_or_else(|| Spare::of(combination).idle);
        let coupling_id = |index: usize| couplings[index].facts().id().to_owned();
        let fight = combination.fight().map(|fight| FightReport {
            elements: element_ids(train, fight.elements),
            couplings: fight.couplings.into_iter().map(coupling_id).collect(),
        });
        Self {
            state_words: words.state,
            answer: words.answer,
            sentences: words.sentences,
            couplings: (0..couplings.len())
                .map(|index| coupling_report(combination, index, &couplings[index]))
                .collect(),
            releasable: element_ids(train, idle),
            fight,
            effort: EffortReport::of(combination),
        }
    }
}

impl From<&RangeChart<'_>> for ChartReport {
    fn from(chart: &RangeChart<'_>) -> Self {
        let ranges = chart.ranges.iter().enumerate().map(|(index, entry)| {
            let range = &entry.combination.train().scenario().ranges[index];
            RangeReport {
                id: range.id.clone(),
                label: range.label.clone(),
                step: entry.step.as_ref().map(Exact::from),
                one_ways: entry.verdict.key(),
                engine_braking: entry.engine_braking,
                combination: (&entry.combination).into(),
            }
        });
        Self {
            ranges: ranges.collect(),
            spread: chart.spread.as_ref().map(Exact::from),
        }
    }
}

/// The tooth warnings of every coupling.
pub fn warnings(train: &Train) -> Vec<WarningReport> {
    let couplings = train.scenario().couplings.iter().map(Coupling::facts);
    couplings
        .flat_map(|facts| {
            let warnings = facts.tooth_warnings().into_iter();
            warnings.map(|warning| WarningReport {
                coupling: facts.id().to_owned(),
                text: warning.sentence(),
            })
        })
        .collect()
}

fn coupling_report(
    combination: &Combination<'_>,
    index: usize,
    coupling: &Coupling,
) -> CouplingReport {
    let facts = coupling.facts();
    let bodies: &[Body] = combination.train().members(index);
    let members = facts
        .members()
        .into_iter()
        .zip(bodies)
        .map(|(member, &body)| MemberReport {
            role: member.role.word(),
            letter: member.role.letter(),
            shaft: member.shaft.to_owned(),
            teeth: member.teeth.map(u32::from),
            speed: exact(combination.body_speed(body)),
        });
    let pinions = facts.pinions().into_iter().map(|pinion| PinionReport {
        name: pinion.name.word(),
        teeth: pinion.teeth.get(),
        second_step: pinion.second_step.map(u32::from),
        speed: exact(combination.pinion_spin(index, &pinion)),
    });
    let meshes = combination.mesh_orders(index).into_iter();
    CouplingReport {
        id: facts.id().to_owned(),
        label: facts.label().to_owned(),
        kind: facts.kind_words(),
        members: members.collect(),
        pinions: pinions.collect(),
        meshes: meshes.map(MeshOrderReport::from).collect(),
    }
}

fn element_ids(train: &Train, set: ElementSet) -> Vec<String> {
    set.iter()
        .map(|index| train.scenario().elements[index].id().to_owned())
        .collect()
}
