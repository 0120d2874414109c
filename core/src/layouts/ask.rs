//! What is asked of a search for layouts, as plain data.

use serde::Serialize;

use super::class::Class;
use super::contradictions::{contradictions, empty};
use super::limits;
use crate::base::problem::Problem;
use crate::json::{Fields, Read, Value, strict};
use crate::search::{Ask, Limits, Near, Rules, TOLERANCE};

/// Which layouts are looked for, and what they must give.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LayoutAsk {
    /// The kind of each set, as in a scenario; all but pairs of gears, which have no axis in common.
    pub sets: Vec<String>,
    /// How many elements are applied in each range.
    pub applied: u32,
    /// Most clutches and brakes together.
    pub elements: u32,
    /// Most clutches, where there is a limit to them alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub clutches: Option<u32>,
    /// Most brakes, where there is a limit to them alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub brakes: Option<u32>,
    /// The forward ranges, the one with the largest ratio first.
    pub forward: Vec<WantedRatio>,
    /// The backward range, where there must be one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub backward: Option<WantedRatio>,
    /// The largest forward ratio over the smallest, where it is wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub spread: Option<Near>,
    /// Least and greatest step from a forward range to the next, where that is wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub step: Option<[f64; 2]>,
    /// Whether neighbouring forward ranges must differ by one element released and one applied.
    pub single_swaps: bool,
    /// Whether a forward range must be direct drive whatever the teeth, or none may be; either where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub direct: Option<bool>,
    /// Fewest and most teeth of suns and rings.
    pub teeth: [u32; 2],
    /// Fewest and most teeth of pinions.
    pub pinion_teeth: [u32; 2],
    /// How many pinions may stand around the axis of a set, the most welcome number first.
    pub pinions: Vec<u32>,
    /// The tooth rules that must hold.
    pub rules: Vec<Rules>,
    /// Bounds on what comes of it, in all ranges.
    pub limits: Limits,
}

/// A wanted ratio.
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct WantedRatio {
    /// Input over output speed, below zero for a backward range; left out, any will do.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub ratio: Option<f64>,
    /// How far it may be off, as a part of it; [`TOLERANCE`] where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub tolerance: Option<f64>,
    /// Least efficiency of this range.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub efficiency: Option<f64>,
}

/// Ratios that can be asked for, or that come of a free one.
const RATIOS: [f64; 2] = [0.001, 1000.0];
/// How much a ratio may be off.
const TOLERANCES: [f64; 2] = [0.0, 0.5];

impl WantedRatio {
    /// Within which values it is; those of a free one are of either side.
    pub(super) fn window(&self, forwards: bool) -> [f64; 2] {
        let [low, high] = match self.ratio {
            Some(ratio) => {
                let tolerance = self.tolerance.unwrap_or(TOLERANCE);
                [1.0 - tolerance, 1.0 + tolerance].map(|part| ratio.abs() * part)
            }
            None => RATIOS,
        };
        if forwards { [low, high] } else { [-high, -low] }
    }
}

impl Default for LayoutAsk {
    /// Two plain sets with two clutches and two brakes for three forward ranges and a backward one.
    fn default() -> Self {
        let usual = Ask::default();
        Self {
            sets: vec!["planetary".to_owned(); 2],
            applied: 2,
            elements: 4,
            clutches: None,
            brakes: None,
            forward: vec![WantedRatio::default(); 3],
            backward: Some(WantedRatio::default()),
            spread: None,
            step: None,
            single_swaps: true,
            direct: None,
            teeth: usual.teeth,
            pinion_teeth: usual.pinion_teeth,
            pinions: usual.pinions,
            rules: usual.rules,
            limits: usual.limits,
        }
    }
}

impl LayoutAsk {
    /// Reads one from JSON; what is left out is as in [`LayoutAsk::default`], but for the backward range: without one, none is
    /// asked for.
    ///
    /// # Errors
    /// Every problem of the text: that it is no JSON, fields that are unknown or of the wrong kind.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let value = strict(text).map_err(|problem| vec![problem])?;
        let read = Self::read(value, "", &mut problems);
        read.filter(|_| problems.is_empty()).ok_or(problems)
    }

    /// What is asked of the teeth of each layout, but for the ratios.
    pub(super) fn of_teeth(&self) -> Ask {
        Ask {
            spread: self.spread,
            teeth: self.teeth,
            pinion_teeth: self.pinion_teeth,
            pinions: self.pinions.clone(),
            rules: self.rules.clone(),
            limits: self.limits,
            best: vec![crate::search::Criterion::Error],
            ..Ask::default()
        }
    }

    /// Its class of layouts.
    ///
    /// # Errors
    /// Every number that is out of bounds, kinds that are unknown, what contradicts each other, sets that cannot be joined.
    pub(super) fn class(&self) -> Result<Class, Vec<Problem>> {
        let mut check = Check(Vec::new());
        let [fewest, most] = [*limits::SETS.start(), *limits::SETS.end()];
        check.is_within(
            "sets",
            self.sets.len() as f64,
            [fewest, most].map(|n| n as f64),
        );
        let [fewest, most] = [*limits::APPLIED.start(), *limits::APPLIED.end()];
        check.is_within(
            "applied",
            self.applied.into(),
            [fewest, most].map(f64::from),
        );
        let elements = [self.applied, limits::ELEMENTS].map(f64::from);
        check.is_within("elements", self.elements.into(), elements);
        check.is_within(
            "forward",
            self.forward.len() as f64,
            [1.0, limits::FORWARD as f64],
        );
        self.check_ratios(&mut check);
        if let Some(Near { value, tolerance }) = self.spread {
            check.is_within("spread.value", value, [1.0, RATIOS[1]]);
            check.is_within("spread.tolerance", tolerance, TOLERANCES);
        }
        if let Some([least, most]) = self.step {
            check.is_within("step[0]", least, [1.0, RATIOS[1]]);
            check.is_within("step[1]", most, [least.max(1.0), RATIOS[1]]);
        }
        check.0.extend(self.of_teeth().numbers());
        let pair = "gear-pair";
        if let Some(at) = self.sets.iter().position(|kind| kind == pair) {
            check.0.push(Problem::of(
                &format!("sets[{at}]"),
                ("problem-layout-pair", &[]),
                ("fix-layout-pair", &[]),
            ));
        }
        if check.0.is_empty() {
            check.0 = contradictions(self);
        }
        if !check.0.is_empty() {
            return Err(check.0);
        }
        let class = Class::new(&self.sets, self.applied, self.elements);
        let class = class.map_err(|problem| vec![problem])?;
        if !class.is_small() {
            let values = [("found", &*class.rows.len().to_string())];
            let most = limits::ROWS.to_string();
            return Err(vec![Problem::of(
                "sets",
                ("problem-layout-rows", &values),
                ("fix-layout-rows", &[("most", &most)]),
            )]);
        }
        match empty(self, &class) {
            Some(problem) => Err(vec![problem]),
            None => Ok(class),
        }
    }

    fn check_ratios(&self, check: &mut Check) {
        let forwards = self.forward.iter().enumerate();
        let places = forwards.map(|(at, wanted)| (format!("forward[{at}]"), wanted, 1.0));
        let backward = self.backward.iter();
        let backward = backward.map(|wanted| ("backward".to_owned(), wanted, -1.0));
        for (place, wanted, sign) in places.chain(backward) {
            if let Some(ratio) = wanted.ratio {
                let ends = if sign > 0.0 {
                    RATIOS
                } else {
                    [-RATIOS[1], -RATIOS[0]]
                };
                check.is_within(&format!("{place}.ratio"), ratio, ends);
            }
            if let Some(tolerance) = wanted.tolerance {
                check.is_within(&format!("{place}.tolerance"), tolerance, TOLERANCES);
            }
            if let Some(efficiency) = wanted.efficiency {
                check.is_within(&format!("{place}.efficiency"), efficiency, [0.0, 1.0]);
            }
        }
        let listed = |at: usize| Some((at, self.forward.get(at)?.ratio?));
        let mut last = None;
        for (at, ratio) in (0..self.forward.len()).filter_map(listed) {
            if let Some(before) = last.filter(|before| *before <= ratio) {
                let [found, before] = [ratio, before].map(|ratio: f64| ratio.to_string());
                check.0.push(Problem::of(
                    &format!("forward[{at}].ratio"),
                    (
                        "problem-layout-order",
                        &[("found", &found), ("before", &before)],
                    ),
                    ("fix-layout-order", &[]),
                ));
            }
            last = Some(ratio);
        }
    }
}

/// Problems found so far.
struct Check(Vec<Problem>);

impl Check {
    fn is_within(&mut self, place: &str, value: f64, [least, most]: [f64; 2]) {
        if !(least..=most).contains(&value) {
            let what = "problem-out-of-range";
            let problem = Problem::out_of_range(place, what, value, least, most);
            self.0.push(problem);
        }
    }
}

impl Read for WantedRatio {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let spare = ["ratio", "tolerance", "efficiency"];
        let mut fields = Fields::of(value, place, &[], &spare, problems)?;
        let [ratio, tolerance, efficiency] = spare.map(|name| fields.take_spare(name));
        Some(Self {
            ratio: ratio?,
            tolerance: tolerance?,
            efficiency: efficiency?,
        })
    }
}

impl Read for LayoutAsk {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let needed = ["sets", "applied", "elements", "forward"];
        let spare = [
            "clutches",
            "brakes",
            "backward",
            "spread",
            "step",
            "single_swaps",
            "direct",
            "teeth",
            "pinion_teeth",
            "pinions",
            "rules",
            "limits",
        ];
        let mut fields = Fields::of(value, place, &needed, &spare, problems)?;
        let usual = Self::default();
        // All fields are read before the first that is wrong ends it.
        let sets = fields.take("sets");
        let applied = fields.take("applied");
        let elements = fields.take("elements");
        let forward = fields.take("forward");
        let [clutches, brakes] = ["clutches", "brakes"].map(|name| fields.take_spare(name));
        let backward = fields.take_spare("backward");
        let spread = fields.take_spare("spread");
        let step = fields.take_spare("step");
        let [single_swaps, direct] = ["single_swaps", "direct"].map(|name| fields.take_spare(name));
        let [teeth, pinion_teeth] = ["teeth", "pinion_teeth"].map(|name| fields.take_spare(name));
        let pinions = fields.take_spare("pinions");
        let rules = fields.take_spare("rules");
        let limits = fields.take_spare("limits");
        let single_swaps: Option<bool> = single_swaps?;
        Some(Self {
            sets: sets?,
            applied: applied?,
            elements: elements?,
            forward: forward?,
            clutches: clutches?,
            brakes: brakes?,
            backward: backward?,
            spread: spread?,
            step: step?,
            single_swaps: single_swaps.unwrap_or(usual.single_swaps),
            direct: direct?,
            teeth: teeth?.unwrap_or(usual.teeth),
            pinion_teeth: pinion_teeth?.unwrap_or(usual.pinion_teeth),
            pinions: pinions?.unwrap_or(usual.pinions),
            rules: rules?.unwrap_or(usual.rules),
            limits: limits?.unwrap_or(usual.limits),
        })
    }
}
