//! The equations of a scenario as rows of floating-point coefficients.

use levertrain_core::coupling::{Coupling, Gear, Mesh, Teeth};
use levertrain_core::scenario::{Brake, Clutch, Element, HOUSING, OneWay, Scenario};

/// A mesh row seen from its carrier: member a, member b, carrier.
pub(super) struct Row {
    pub(super) parts: [Part; 3],
    /// Meshes between a and b, where the row has them to itself.
    pub(super) meshes: Option<i32>,
}

/// What a row of length one has for a shaft, or the housing.
#[derive(Clone, Copy)]
pub(super) struct Part {
    pub(super) shaft: Option<usize>,
    pub(super) factor: f64,
}

/// A member of a coupling.
pub(super) struct Member {
    pub(super) shaft: Option<usize>,
    /// Index and factor of every row it is in.
    pub(super) rows: Vec<(usize, f64)>,
}

/// Willis' relation for each row, or equal pitch-line speeds.
pub(super) fn mesh_terms(coupling: &Coupling) -> Vec<[(&str, f64); 3]> {
    match coupling {
        Coupling::Planetary(set) => {
            let (sun, ring) = (&set.sun, &set.ring);
            vec![seen_from(
                &set.carrier,
                (sun, teeth(sun)),
                (ring, teeth(ring)),
            )]
        }
        Coupling::DoublePinion(set) => {
            let (sun, ring) = (&set.sun, &set.ring);
            vec![seen_from(
                &set.carrier,
                (sun, teeth(sun)),
                (ring, -teeth(ring)),
            )]
        }
        Coupling::Stepped(set) => {
            let (sun, ring) = (&set.sun, &set.ring);
            let [p, q] = [&set.sun_pinion, &set.ring_pinion].map(|step| count(step.teeth));
            vec![seen_from(
                &set.carrier,
                (sun, teeth(sun) * q),
                (ring, teeth(ring) * p),
            )]
        }
        Coupling::SteppedSuns(set) => {
            let (first, second) = (&set.first_sun, &set.second_sun);
            let [p, q] = [&set.first_pinion, &set.second_pinion].map(|step| count(step.teeth));
            vec![seen_from(
                &set.carrier,
                (first, teeth(first) * q),
                (second, -teeth(second) * p),
            )]
        }
        Coupling::Ravigneaux(set) => {
            let ring = teeth(&set.ring);
            let row = |sun, sign: f64| {
                seen_from(&set.carrier, (sun, teeth(sun)), (&set.ring, sign * ring))
            };
            vec![row(&set.small_sun, -1.0), row(&set.large_sun, 1.0)]
        }
        Coupling::GearPair(pair) => {
            let sign = match pair.mesh {
                Mesh::External => 1.0,
                Mesh::Internal => -1.0,
            };
            let (first, second) = (&pair.first, &pair.second);
            vec![seen_from(
                HOUSING,
                (first, teeth(first)),
                (second, sign * teeth(second)),
            )]
        }
    }
}

/// za·(ωa − ωc) + zb·(ωb − ωc).
fn seen_from<'a>(
    carrier: &'a str,
    (a, za): (&'a Gear, f64),
    (b, zb): (&'a Gear, f64),
) -> [(&'a str, f64); 3] {
    [(&a.shaft, za), (&b.shaft, zb), (carrier, -za - zb)]
}

/// Meshes between the ends of a row; the rows of a Ravigneaux set share one.
pub(super) fn mesh_count(coupling: &Coupling) -> Option<i32> {
    match coupling {
        Coupling::Planetary(_) | Coupling::Stepped(_) | Coupling::SteppedSuns(_) => Some(2),
        Coupling::DoublePinion(_) => Some(3),
        Coupling::GearPair(_) => Some(1),
        Coupling::Ravigneaux(_) => None,
    }
}

fn count(teeth: Teeth) -> f64 {
    f64::from(teeth.get())
}

fn teeth(gear: &Gear) -> f64 {
    count(gear.teeth)
}

pub(super) fn slip_terms(element: &Element) -> [(&str, f64); 2] {
    match element {
        Element::Brake(Brake { shaft, .. }) => [(shaft, 1.0), (HOUSING, -1.0)],
        Element::Clutch(Clutch {
            between: [first, second],
            ..
        }) => [(first, 1.0), (second, -1.0)],
        Element::OneWay(OneWay { shaft, against, .. }) => [(shaft, 1.0), (against, -1.0)],
    }
}

pub(super) fn shaft_of(scenario: &Scenario, id: &str) -> Option<usize> {
    scenario.shafts.iter().position(|shaft| shaft.id == id)
}

/// The terms of an equation, of length one in the shafts so that one tolerance serves all.
pub(super) fn unit_parts<const N: usize>(
    scenario: &Scenario,
    terms: &[(&str, f64); N],
) -> [Part; N] {
    let turning = terms.iter().filter(|(id, _)| *id != HOUSING);
    let length = turning.map(|(_, x)| x * x).sum::<f64>().sqrt();
    let scale = if length > 0.0 { 1.0 / length } else { 0.0 };
    terms.map(|(id, factor)| Part {
        shaft: shaft_of(scenario, id),
        factor: factor * scale,
    })
}

/// The same with an entry for every shaft.
pub(super) fn full_row(scenario: &Scenario, parts: &[Part]) -> Vec<f64> {
    let mut row = vec![0.0; scenario.shafts.len()];
    for part in parts {
        if let Some(shaft) = part.shaft {
            row[shaft] += part.factor;
        }
    }
    row
}
