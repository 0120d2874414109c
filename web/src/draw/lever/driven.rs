//! The diagram while speeds are given by hand: of a train with several sources, or of one whose members are free.

use levertrain_core::{Body, ElementSet, Train};

use super::drawing;
use super::geometry::Diagram;
use crate::draw::scene::{Point, Scene};
use crate::draw::section::Stage;
use crate::motion::live::{Live, Motion};
use crate::motion::reach::Reach;
use crate::units::speed_unit::SpeedUnit;

/// Speeds that are drawn, in rev/min.
#[derive(Debug, Clone)]
pub struct Driven<'a> {
    /// The train.
    pub train: &'a Train,
    /// The applied elements.
    pub applied: ElementSet,
    /// Speed of each shaft.
    pub turns: &'a [f64],
    /// Whether each can be turned or follows others; what is neither is held.
    pub turning: &'a [bool],
    /// Slowest and fastest speed of the axis.
    pub reach: (f64, f64),
    /// The shaft pointed at.
    pub lit: Option<usize>,
    /// The unit of the lettering.
    pub unit: SpeedUnit,
}

/// Where nodes stand.
#[derive(Debug, Clone, PartialEq)]
pub struct DrivenPlaces {
    /// Height of the drawing in CSS pixels.
    pub height: f64,
    /// How many rev/min a CSS pixel upwards is.
    pub per_pixel: f64,
    /// A shaft and a place of it, lever by lever.
    pub nodes: Vec<(usize, Point)>,
}

/// What a unit of the axis is, in rev/min: which it is does not show.
const UNIT: f64 = 1000.0;

impl Driven<'_> {
    fn live(&self) -> Live<'_> {
        let motions = self.turns.iter().zip(self.turning);
        let motions = motions.map(|(&speed, &turning)| match () {
            () if !turning => Motion::Held,
            () if speed < 0.0 => Motion::Backward,
            () => Motion::Forward,
        });
        let elements = 0..self.train.scenario().elements.len();
        let grips = elements.map(|element| f64::from(u8::from(self.applied.contains(element))));
        let (low, high) = self.reach;
        Live {
            train: self.train,
            applied: self.applied,
            motions: motions.collect(),
            speeds: self.turns.iter().map(|speed| speed / UNIT).collect(),
            angles: vec![0.0; self.turns.len()],
            grips: grips.collect(),
            fighting: ElementSet::NONE,
            lit: self.lit,
            told: 0,
            input_speed: UNIT,
            speed_unit: self.unit,
            preview: None,
            reach: Reach {
                low: low / UNIT,
                high: high / UNIT,
            },
            powers: None,
        }
    }
}

/// Draws it. The input has no line of its own: it is one node among others.
pub fn scene_driven(driven: &Driven<'_>, stage: &Stage<'_>, merged: bool) -> Scene {
    let live = driven.live();
    let mut diagram = Diagram::of(&live, stage, merged);
    diagram.has_input_line = false;
    drawing::draw(&diagram)
}

/// Where the nodes of [`scene_driven`] stand.
pub fn places_driven(driven: &Driven<'_>, stage: &Stage<'_>, merged: bool) -> DrivenPlaces {
    let live = driven.live();
    let diagram = Diagram::of(&live, stage, merged);
    let nodes = diagram.nodes().flat_map(|node| {
        let bodies = node.bodies.iter();
        bodies.filter_map(|&body| match body {
            Body::Housing => None,
            Body::Shaft(shaft) => Some((shaft, node.at)),
        })
    });
    let rise = diagram.axis.y(0.0) - diagram.axis.y(1.0 / UNIT);
    let (low, high) = driven.reach;
    // Standstill may be at an end of the axis; so its length is asked instead where a step cannot be seen.
    let length = diagram.axis.y(low / UNIT) - diagram.axis.y(high / UNIT);
    DrivenPlaces {
        height: diagram.size.1,
        per_pixel: match rise > 0.0 {
            true => 1.0 / rise,
            false => (high - low) / length.max(1.0),
        },
        nodes: nodes.collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::tests::session;

    /// Nodes stand as far apart as their speeds are, and a train without a speed of its input has an axis all the same.
    #[test]
    fn heights_are_speeds() {
        let session = session("14");
        let train = session.train();
        for turns in [
            [2000.0, -1500.0, -3000.0, 4000.0],
            [0.0, 800.0, -900.0, 0.0],
        ] {
            let driven = Driven {
                train,
                applied: ElementSet::NONE,
                turns: &turns,
                turning: &[true; 4],
                reach: (-4000.0, 5000.0),
                lit: None,
                unit: SpeedUnit::RevPerMin,
            };
            let stage = session.layout().stage(900.0);
            let places = places_driven(&driven, &stage, false);
            assert!(places.per_pixel > 0.0 && places.nodes.len() >= 5);
            let (first, top) = places.nodes[0];
            for &(shaft, place) in &places.nodes {
                let expected = (turns[shaft] - turns[first]) / places.per_pixel;
                assert!(
                    (top.y - place.y - expected).abs() < 1e-6,
                    "{shaft} at {place:?}"
                );
            }
            let scene = scene_driven(&driven, &stage, false);
            assert!((scene.height - places.height).abs() < 1e-9);
            let texts: Vec<&str> = scene.labels().map(|label| label.text.as_str()).collect();
            assert!(texts.contains(&"rev/min"), "{texts:?}");
        }
    }
}
