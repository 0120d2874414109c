//! What is asked of a search for teeth, as plain data: it is checked against a train by
//! [`super::Search::new`].

use serde::Serialize;

use super::limits::{FEWEST, MOST, PINION_COUNTS};
use crate::base::problem::Problem;
use crate::json::{Fields, Read, Value, one_of, strict};
use crate::model::tooth_checks::{FEWEST_TEETH, Rule};

/// What ratios are wanted, from which tooth counts, and what makes one train better than another.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ask {
    /// Wanted ratios of ranges; those of others are free.
    pub wanted: Vec<Wanted>,
    /// The largest forward ratio over the smallest, where it is wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub spread: Option<Near>,
    /// Each step over the next one, where that is wanted: 1 for steps that are all alike, more for steps that
    /// become smaller towards the last range.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub steps: Option<Near>,
    /// Fewest and most teeth of suns, rings and gears of pairs.
    pub teeth: [u32; 2],
    /// Fewest and most teeth of pinions.
    pub pinion_teeth: [u32; 2],
    /// How many pinions may stand around the axis of a set, the most welcome number first.
    pub pinions: Vec<u32>,
    /// Sets that keep the teeth they have, by id.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "types", ts(optional, as = "Option<_>"))]
    pub keep: Vec<String>,
    /// Sets whose rings must have as many teeth, by id, one list for each such group.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "types", ts(optional, as = "Option<_>"))]
    pub same_ring: Vec<Vec<String>>,
    /// Pairs of gears whose axes must be as far apart, all gears having one module, by id, one list for each such group: those that
    /// lead away from an axis and back to it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "types", ts(optional, as = "Option<_>"))]
    pub same_distance: Vec<Vec<String>>,
    /// The tooth rules that must hold.
    pub rules: Vec<Rules>,
    /// Bounds on what comes of it.
    pub limits: Limits,
    /// What makes one train better than another; a find is one that no other beats in all of them.
    pub best: Vec<Criterion>,
}

/// A wanted ratio of a range.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Wanted {
    /// Id of the range.
    pub range: String,
    /// Its ratio, input over output speed; below zero where the output turns backward. Left out, the range only has
    /// its place among the steps, and drives as it does with the teeth that the train has: forward, or backward.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub ratio: Option<f64>,
    /// How far it may be off, as a part of the ratio; [`TOLERANCE`] where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub tolerance: Option<f64>,
    /// Least efficiency of this range, with the usual loss of each mesh ([`crate::MESH_EFFICIENCY`]).
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub efficiency: Option<f64>,
}

/// How far a ratio may be off where nothing else is said.
pub const TOLERANCE: f64 = 0.02;

impl Wanted {
    pub(super) fn tolerance(&self) -> f64 {
        self.tolerance.unwrap_or(TOLERANCE)
    }
}

/// A wanted quotient of two ratios, or of two steps.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Near {
    /// What it should be.
    pub value: f64,
    /// How far it may be off, as a part of that.
    pub tolerance: f64,
}

/// Bounds on what comes of tooth counts, in all ranges for which a ratio is wanted; each may be left out.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Limits {
    /// Fastest that a pinion may turn about its pin, in turns of the input.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub pinion_speed: Option<f64>,
    /// Fastest that the two sides of an open clutch or brake may turn against each other, in turns of the input.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub open_speed: Option<f64>,
    /// Least efficiency, with the usual loss of each mesh ([`crate::MESH_EFFICIENCY`]).
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub efficiency: Option<f64>,
}

/// A rule that tooth counts must keep.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "types", ts(rename = "ToothRule"))]
pub enum Rules {
    /// Pins reach sun and ring without profile shift; otherwise half a module at each mesh is left to that.
    Coaxial,
    /// Equal pinions stand at equal angles.
    EqualSpacing,
    /// Neighbouring pinions do not touch.
    NeighboursClear,
    /// No gear has fewer teeth than [`FEWEST_TEETH`].
    FewestTeeth,
}

impl Rules {
    /// All of them.
    pub const ALL: [Self; 4] = [
        Self::Coaxial,
        Self::EqualSpacing,
        Self::NeighboursClear,
        Self::FewestTeeth,
    ];

    /// The rule of the tooth checks that it is.
    pub(super) const fn rule(self) -> Rule {
        match self {
            Self::Coaxial => Rule::Coaxial,
            Self::EqualSpacing => Rule::EqualSpacing,
            Self::NeighboursClear => Rule::NeighboursClear,
            Self::FewestTeeth => Rule::FewestTeeth,
        }
    }
}

/// What makes one train better than another: less of it, or more for efficiency.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Criterion {
    /// How far the wanted ratio that is off most is off.
    Error,
    /// How uneven the steps are: see [`super::Measures::unevenness`].
    Steps,
    /// Teeth of the largest ring, or of what reaches out as far.
    Size,
    /// The lowest efficiency.
    Efficiency,
    /// The fastest pinion.
    PinionSpeed,
}

impl Criterion {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Error,
        Self::Steps,
        Self::Size,
        Self::Efficiency,
        Self::PinionSpeed,
    ];
}

impl Default for Ask {
    /// What one is asked for that leaves all but the ratios as usual.
    fn default() -> Self {
        Self {
            wanted: Vec::new(),
            spread: None,
            steps: None,
            teeth: [18, 100],
            pinion_teeth: [FEWEST_TEETH, MOST],
            pinions: vec![3, 4],
            keep: Vec::new(),
            same_ring: Vec::new(),
            same_distance: Vec::new(),
            rules: Rules::ALL.to_vec(),
            limits: Limits::default(),
            best: vec![Criterion::Error, Criterion::Size],
        }
    }
}

impl Ask {
    /// Reads one from JSON; what is left out is as in [`Ask::default`].
    ///
    /// # Errors
    /// Every problem of the text: that it is no JSON, fields that are unknown or of the wrong kind.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let value = strict(text).map_err(|problem| vec![problem])?;
        let read = Self::read(value, "", &mut problems);
        read.filter(|_| problems.is_empty()).ok_or(problems)
    }
}

impl Read for Ask {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let spare = [
            "wanted",
            "spread",
            "steps",
            "teeth",
            "pinion_teeth",
            "pinions",
            "keep",
            "same_ring",
            "same_distance",
            "rules",
            "limits",
            "best",
        ];
        let mut fields = Fields::of(value, place, &[], &spare, problems)?;
        let usual = Self::default();
        // All fields are read before the first that is wrong ends it.
        let wanted = fields.take_spare("wanted");
        let spread = fields.take_spare("spread");
        let steps = fields.take_spare("steps");
        let teeth = fields.take_spare("teeth");
        let pinion_teeth = fields.take_spare("pinion_teeth");
        let pinions = fields.take_spare("pinions");
        let keep = fields.take_spare("keep");
        let same_ring = fields.take_spare("same_ring");
        let same_distance = fields.take_spare("same_distance");
        let rules = fields.take_spare("rules");
        let limits = fields.take_spare("limits");
        let best = fields.take_spare("best");
        Some(Self {
            wanted: wanted?.unwrap_or_default(),
            spread: spread?,
            steps: steps?,
            teeth: teeth?.unwrap_or(usual.teeth),
            pinion_teeth: pinion_teeth?.unwrap_or(usual.pinion_teeth),
            pinions: pinions?.unwrap_or(usual.pinions),
            keep: keep?.unwrap_or_default(),
            same_ring: same_ring?.unwrap_or_default(),
            same_distance: same_distance?.unwrap_or_default(),
            rules: rules?.unwrap_or(usual.rules),
            limits: limits?.unwrap_or_default(),
            best: best?.unwrap_or(usual.best),
        })
    }
}

crate::json::read_fields!(Wanted { range } optional { ratio, tolerance, efficiency });
crate::json::read_fields!(Near { value, tolerance });

impl Read for Limits {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let spare = ["pinion_speed", "open_speed", "efficiency"];
        let mut fields = Fields::of(value, place, &[], &spare, problems)?;
        let [pinion_speed, open_speed, efficiency] = spare.map(|name| fields.take_spare(name));
        Some(Self {
            pinion_speed: pinion_speed?,
            open_speed: open_speed?,
            efficiency: efficiency?,
        })
    }
}

impl Read for Rules {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [
            ("coaxial", Self::Coaxial),
            ("equal-spacing", Self::EqualSpacing),
            ("neighbours-clear", Self::NeighboursClear),
            ("fewest-teeth", Self::FewestTeeth),
        ];
        one_of(&value, place, &words, problems)
    }
}

impl Read for Criterion {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [
            ("error", Self::Error),
            ("steps", Self::Steps),
            ("size", Self::Size),
            ("efficiency", Self::Efficiency),
            ("pinion-speed", Self::PinionSpeed),
        ];
        one_of(&value, place, &words, problems)
    }
}

/// Whether two numbers are a range within what gears may have.
pub(super) fn is_range([least, most]: [u32; 2]) -> bool {
    (FEWEST..=MOST).contains(&least) && (least..=MOST).contains(&most)
}

/// Whether so many pinions can be asked for.
pub(super) fn is_count(count: u32) -> bool {
    PINION_COUNTS.contains(&count)
}
