//! What of a train decides where its parts can be: trains of one shape can share a plan.

use levertrain_core::coupling::{Mount, Plane};
use levertrain_core::{Body, Train};

use super::axes::Axes;

/// How a gear is mounted, in which plane, and whether it is internal.
type GearShape = (Mount, Plane, bool);

/// The shape of a train: everything but names and, as far as they change no axis, tooth counts.
#[derive(Debug, PartialEq)]
pub struct Shape {
    shafts: usize,
    ends: [usize; 2],
    /// Of each coupling, its members and its gears.
    couplings: Vec<(Vec<Body>, Vec<GearShape>)>,
    elements: Vec<([Body; 2], Option<u32>)>,
    turned: Vec<Option<bool>>,
    axes: Vec<(usize, bool)>,
}

impl Shape {
    /// The shape of a train.
    pub fn of(train: &Train) -> Self {
        let scenario = train.scenario();
        let couplings = scenario.couplings.iter().enumerate();
        let couplings = couplings.map(|(index, coupling)| {
            let gears = coupling.facts().profile().gears.into_iter();
            let gears = gears.map(|gear| (gear.mount, gear.plane, gear.internal));
            (train.members(index).to_vec(), gears.collect())
        });
        let axes = Axes::of(train);
        Self {
            shafts: scenario.shafts.len(),
            ends: [train.input(), train.output()],
            couplings: couplings.collect(),
            elements: (0..scenario.elements.len())
                .map(|x| (train.ends(x), scenario.elements[x].gap()))
                .collect(),
            turned: scenario
                .couplings
                .iter()
                .map(|coupling| coupling.facts().turned())
                .collect(),
            axes: axes
                .ways
                .iter()
                .map(|way| (way.axis, way.returns()))
                .collect(),
        }
    }
}
