//! What of a train can be changed, as plain data for the forms of the page.

use levertrain_core::coupling::{Coupling, Mesh, Role};
use levertrain_core::edit::{near_ratios, nearest_teeth, ratio_of};
use levertrain_core::report::{Exact, warnings};
use levertrain_core::scenario::{Element, Friction, OneWay, Scenario, Way};
use serde::Serialize;

use crate::document::session::Session;

/// What of a train can be changed, beside what its description says.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct Sheet {
    /// What the housing is called instead of its name, or nothing.
    housing: String,
    /// The sets and pairs, in order along the axis.
    sets: Vec<SetSheet>,
    /// The brakes and clutches.
    elements: Vec<ElementSheet>,
    /// How many edits can be taken back.
    undo: usize,
    /// How many can be made again.
    redo: usize,
}

/// A set or a pair.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct SetSheet {
    id: String,
    label: String,
    /// Its kind in words.
    kind: &'static str,
    /// Its members; the housing that a pair stands in is none.
    members: Vec<MemberSheet>,
    /// Its gears and the steps of its pinions, from the middle outwards.
    gears: Vec<GearSheet>,
    /// How many pinions stand around the axis, where it has some.
    count: Option<u32>,
    /// Whether the second gear of a pair is internal; nothing for a set.
    internal: Option<bool>,
    /// The rules that its teeth do not keep.
    warnings: Vec<String>,
    /// Where there are some, the nearest tooth counts that keep all, in the order of the gears.
    nearest: Option<Vec<u32>>,
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct MemberSheet {
    /// Which of the members it is, as edits count them.
    at: usize,
    /// What it is: `sun`, `ring`, `carrier`…
    role: &'static str,
    /// Id of its shaft, or `housing`.
    shaft: String,
    /// Which of the gears it is; a carrier is none.
    gear: Option<usize>,
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct GearSheet {
    /// What it is called.
    name: &'static str,
    teeth: u32,
}

#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
struct ElementSheet {
    id: String,
    label: String,
    #[cfg_attr(feature = "types", ts(type = "ElementKind"))]
    kind: &'static str,
    /// Ids of what it joins; the second may be `housing`.
    ends: [String; 2],
    /// Whether a one-way clutch keeps its first end from turning backward past the second, rather than
    /// forward; nothing for others.
    backward: Option<bool>,
    /// What it can hold, where that is known.
    friction: Option<Friction>,
    /// The room along the axis that it is drawn in, where that was chosen.
    gap: Option<u32>,
}

impl Sheet {
    /// What of the train on screen can be changed.
    pub fn of(session: &Session) -> Self {
        let train = session.train();
        let scenario = train.scenario();
        let warned = warnings(train);
        let sets = scenario.couplings.iter().map(|coupling| {
            let mut set = SetSheet::of(coupling);
            let own = warned.iter().filter(|warning| warning.coupling == set.id);
            set.warnings = own.map(|warning| warning.text.clone()).collect();
            if !set.warnings.is_empty() {
                let nearest = nearest_teeth(coupling);
                set.nearest = nearest.map(|all| all.into_iter().map(u32::from).collect());
            }
            set
        });
        let [undo, redo] = session.depth();
        Self {
            housing: scenario.housing_label.clone().unwrap_or_default(),
            sets: sets.collect(),
            elements: elements(scenario),
            undo,
            redo,
        }
    }
}

impl SetSheet {
    fn of(coupling: &Coupling) -> Self {
        let facts = coupling.facts();
        let mut copy = coupling.clone();
        let parts = copy.parts();
        let names: Vec<_> = parts.teeth.iter().map(|(name, _)| *name).collect();
        let members = facts.members().into_iter().enumerate();
        let members = members.filter(|(_, member)| member.role != Role::Frame);
        Self {
            id: facts.id().to_owned(),
            label: facts.label().to_owned(),
            kind: facts.kind_words(),
            members: members
                .map(|(at, member)| MemberSheet {
                    at,
                    role: member.role.word(),
                    shaft: member.shaft.to_owned(),
                    gear: names.iter().position(|&name| name == member.role.into()),
                })
                .collect(),
            gears: parts
                .teeth
                .iter()
                .map(|(name, teeth)| GearSheet {
                    name: name.word(),
                    teeth: teeth.get(),
                })
                .collect(),
            count: parts.count.map(|count| count.get()),
            internal: match coupling {
                Coupling::GearPair(pair) => Some(pair.mesh == Mesh::Internal),
                _ => None,
            },
            warnings: Vec::new(),
            nearest: None,
        }
    }
}

fn elements(scenario: &Scenario) -> Vec<ElementSheet> {
    let elements = scenario.elements.iter().map(|element| ElementSheet {
        id: element.id().to_owned(),
        label: element.label().to_owned(),
        kind: element.kind(),
        ends: element.ends().map(str::to_owned),
        friction: element.friction().copied(),
        gap: element.gap(),
        backward: match element {
            Element::OneWay(OneWay { locks, .. }) => Some(*locks == Way::Backward),
            _ => None,
        },
    });
    elements.collect()
}

/// A ratio that a set could have, and its teeth then.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct NearRatioInfo {
    /// The ratio.
    ratio: Exact,
    /// The tooth counts in the order of the gears.
    teeth: Vec<u32>,
}

/// The ratios near that of a set.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct NearRatios {
    /// The ratio as a formula, such as R/S.
    formula: String,
    /// Its own.
    own: Exact,
    /// Those that tooth counts near its own have, rising.
    near: Vec<NearRatioInfo>,
}

impl NearRatios {
    /// Those of a set by its id.
    pub fn of(scenario: &Scenario, set: &str) -> Option<Self> {
        let mut sets = scenario.couplings.iter();
        let coupling = sets.find(|coupling| coupling.facts().id() == set)?;
        let (formula, own) = ratio_of(coupling)?;
        let near = near_ratios(coupling).into_iter();
        let near = near.map(|near| NearRatioInfo {
            ratio: Exact::from(&near.ratio),
            teeth: near.teeth.into_iter().map(u32::from).collect(),
        });
        Some(Self {
            formula,
            own: Exact::from(&own),
            near: near.collect(),
        })
    }
}
