//! Random gear trains for the property tests.

use levertrain_core::ElementSet;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::{Config, RngSeed};

use crate::sketch::{Coupling, Element, Gear, Gearing, HOUSING, Sketch};

/// Settings of the property tests: the same cases in every run, unless the environment asks for
/// others with `PROPTEST_RNG_SEED` or `PROPTEST_CASES`.
pub fn settings(cases: u32) -> Config {
    let environment = Config::default();
    let chosen = std::env::var_os("PROPTEST_CASES").is_some();
    Config {
        cases: if chosen { environment.cases } else { cases },
        rng_seed: match environment.rng_seed {
            RngSeed::Random => RngSeed::Fixed(0x6ea7),
            fixed @ RngSeed::Fixed(_) => fixed,
        },
        failure_persistence: None,
        ..environment
    }
}

/// A train and some of its elements, applied.
#[derive(Debug, Clone)]
pub struct Case {
    /// The train.
    pub sketch: Sketch,
    /// Whether each element is applied.
    pub applied: Vec<bool>,
}

impl Case {
    /// The applied elements as the core has them.
    pub fn applied(&self) -> ElementSet {
        let indices = self.applied.iter().enumerate();
        indices
            .filter(|(_, on)| **on)
            .map(|(index, _)| index)
            .collect()
    }

    /// Whether `element` is applied.
    pub fn is_applied(&self, element: &Element) -> bool {
        let mut elements = self.sketch.elements.iter().zip(&self.applied);
        elements.any(|(known, &on)| on && known.id == element.id)
    }
}

/// What trains to draw.
#[derive(Debug, Clone, Copy)]
pub struct Kind {
    /// Most couplings.
    pub couplings: usize,
    /// Most shift elements.
    pub elements: usize,
    /// Whether the housing may take part: as a member, through a brake, or as the frame of a
    /// gear pair.
    pub housing: bool,
    /// Most teeth of a gear.
    pub teeth: u32,
}

/// Any train of everyday size.
pub const ANY: Kind = Kind {
    couplings: 5,
    elements: 6,
    housing: true,
    teeth: 999,
};

/// Trains as large as the format allows.
pub const LARGE: Kind = Kind {
    couplings: 12,
    elements: 8,
    ..ANY
};

/// Trains in which nothing touches the housing.
pub const AFLOAT: Kind = Kind {
    housing: false,
    ..ANY
};

/// A train with some elements applied.
pub fn case(kind: Kind) -> impl Strategy<Value = Case> {
    sketch(kind).prop_flat_map(|sketch| {
        // Less than half of them: with many applied almost everything is tied up.
        let applied = vec(prop::bool::weighted(0.4), sketch.elements.len());
        (Just(sketch), applied).prop_map(|(sketch, applied)| Case { sketch, applied })
    })
}

/// A train.
pub fn sketch(kind: Kind) -> impl Strategy<Value = Sketch> {
    let counts = (1..=kind.couplings, 2..=5_usize, 0..=kind.elements);
    counts.prop_flat_map(move |(couplings, freedom, elements)| {
        let shafts = (couplings + freedom).min(24);
        let shafts: Vec<String> = (0..shafts).map(|index| format!("s{index}")).collect();
        let couplings = vec((coupling(&shafts, kind), twin(0.08)), couplings);
        let elements = vec((ends(&shafts, kind), twin(0.25)), elements);
        let parts = (Just(shafts.clone()), ordered(&shafts), couplings, elements);
        parts.prop_map(|(shafts, outer, couplings, elements)| Sketch {
            input: outer[0].clone(),
            output: outer[1].clone(),
            shafts,
            couplings: numbered("g", couplings, |id, (gearing, count)| Coupling {
                id,
                gearing,
                count,
            }),
            elements: numbered("e", elements, |id, ends| Element { id, ends }),
            ranges: Vec::new(),
        })
    })
}

/// Which earlier item to repeat, with this probability: redundant parts are rare otherwise.
fn twin(probability: f64) -> impl Strategy<Value = Option<Index>> {
    prop::option::weighted(probability, any::<Index>())
}

fn numbered<T: Clone, U>(
    letter: &str,
    items: Vec<(T, Option<Index>)>,
    named: impl Fn(String, T) -> U,
) -> Vec<U> {
    let mut done: Vec<T> = Vec::new();
    for (item, twin) in items {
        let earlier = twin.filter(|_| !done.is_empty());
        let earlier = earlier.map(|twin| twin.get(&done).clone());
        done.push(earlier.unwrap_or(item));
    }
    let items = done.into_iter().enumerate();
    items
        .map(|(index, item)| named(format!("{letter}{index}"), item))
        .collect()
}

/// `items` in random order.
pub fn ordered<T: Clone + std::fmt::Debug + 'static>(
    items: &[T],
) -> impl Strategy<Value = Vec<T>> + use<T> {
    Just(items.to_vec()).prop_shuffle()
}

/// Mostly everyday tooth counts, sometimes the extremes.
fn teeth(most: u32) -> impl Strategy<Value = u32> {
    prop_oneof![4 => 12..=90.min(most), 1 => 6..=most]
}

fn coupling(shafts: &[String], kind: Kind) -> impl Strategy<Value = (Gearing, u32)> + use<> {
    let mut grounded = shafts.to_vec();
    grounded.push(HOUSING.to_owned());
    let bodies = if kind.housing {
        prop_oneof![4 => ordered(shafts), 1 => ordered(&grounded)].boxed()
    } else {
        ordered(shafts).boxed()
    };
    let counts = vec(teeth(kind.teeth), 5);
    let kinds = if kind.housing { 0..7 } else { 0..5 };
    let gearing = (kinds, bodies, ordered(shafts), counts).prop_map(|(kind, bodies, axes, z)| {
        let gear = |shaft: &String, teeth| Gear {
            shaft: shaft.clone(),
            teeth,
        };
        match kind {
            0 => Gearing::Planetary {
                sun: gear(&bodies[0], z[0]),
                ring: gear(&bodies[1], z[1]),
                carrier: bodies[2].clone(),
                pinion: z[2],
            },
            1 => Gearing::DoublePinion {
                sun: gear(&bodies[0], z[0]),
                ring: gear(&bodies[1], z[1]),
                carrier: bodies[2].clone(),
                inner: z[2],
                outer: z[3],
            },
            2 => Gearing::Stepped {
                sun: gear(&bodies[0], z[0]),
                ring: gear(&bodies[1], z[1]),
                carrier: bodies[2].clone(),
                sun_pinion: z[2],
                ring_pinion: z[3],
            },
            3 if bodies.len() >= 4 => Gearing::Ravigneaux {
                small: gear(&bodies[0], z[0]),
                large: gear(&bodies[3], z[3]),
                ring: gear(&bodies[1], z[1]),
                carrier: bodies[2].clone(),
                short: z[2],
                long: z[4],
            },
            // Four members do not fit on three shafts.
            3 => Gearing::Planetary {
                sun: gear(&bodies[0], z[0]),
                ring: gear(&bodies[1], z[1]),
                carrier: bodies[2].clone(),
                pinion: z[2],
            },
            4 => Gearing::SteppedSuns {
                first: gear(&bodies[0], z[0]),
                second: gear(&bodies[1], z[1]),
                carrier: bodies[2].clone(),
                pinions: [z[2], z[3]],
            },
            _ => Gearing::Pair {
                internal: kind == 6,
                first: gear(&axes[0], z[0]),
                second: gear(&axes[1], z[1]),
            },
        }
    });
    (gearing, 1..=12_u32)
}

fn ends(shafts: &[String], kind: Kind) -> impl Strategy<Value = [String; 2]> + use<> {
    let brakes = if kind.housing { 0.5 } else { 0.0 };
    (ordered(shafts), prop::bool::weighted(brakes)).prop_map(|(shafts, brake)| {
        let second = if brake { HOUSING } else { &shafts[1] };
        [shafts[0].clone(), second.to_owned()]
    })
}
