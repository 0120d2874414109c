//! Broken trains once more, without the core's fault finding: by dense elimination where there are no
//! one-way clutches, and as a scenario that somebody has broken by hand.

use levertrain_core::faults::Fault;
use levertrain_core::scenario::{Brake, Clutch, Element, HOUSING, Scenario, Shaft, Way};
use levertrain_core::{Body, Duty, ElementSet, Fraction, Train, Verdict};
use levertrain_tests::elimination::{Echelon, Row};
use levertrain_tests::generate::{ANY, Kind, sketch};
use num_bigint::BigInt;
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::json;

/// What a train does in a range, as noticed from outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Seen {
    Drives(Fraction),
    Neutral,
    Held,
    Tied,
    Undecided,
}

/// What is applied in a range: the index of each element.
pub(super) type Applied = Vec<usize>;

/// The elements of each named range, and none where no range is a neutral.
pub(super) fn meant(train: &Train) -> Vec<Applied> {
    let ranges = 0..train.scenario().ranges.len();
    let mut meant: Vec<Applied> = ranges
        .map(|range| train.range(range).iter().collect())
        .collect();
    let neutral = |applied: &Applied| {
        applied.is_empty() || settled(train, applied, Duty::Drive) == Seen::Neutral
    };
    if !meant.iter().any(neutral) {
        meant.push(Vec::new());
    }
    meant
}

/// What is applied in truth, what slips left out or not.
pub(super) fn applied(meant: &Applied, faults: &[Fault], slipping: bool) -> Applied {
    let mut applied = meant.clone();
    for fault in faults {
        match *fault {
            Fault::WillNotApply(element) => applied.retain(|known| *known != element),
            Fault::WillNotRelease(element) | Fault::StaysLocked(element) => applied.push(element),
            Fault::Slips(element) if !slipping => applied.retain(|known| *known != element),
            Fault::Slips(_) | Fault::DoesNotHold(_) | Fault::BrokenSpline(..) => {}
        }
    }
    applied.sort_unstable();
    applied.dedup();
    applied
}

/// What a train without one-way clutches does, by dense elimination.
pub(super) fn by_elimination(train: &Train, faults: &[Fault], applied: &Applied) -> Seen {
    let scenario = train.scenario();
    // Each shaft has a column, and so has each member that is cut off; the output and the input come
    // last, so that what is left of them is the last of the echelon.
    let cuts: Vec<(usize, usize)> = faults
        .iter()
        .filter_map(|fault| match fault {
            Fault::BrokenSpline(coupling, member) => Some((*coupling, *member)),
            _ => None,
        })
        .collect();
    let count = cuts.len() + scenario.shafts.len();
    let column = |shaft: usize| match shaft {
        _ if shaft == train.output() => count - 2,
        _ if shaft == train.input() => count - 1,
        _ => {
            let before = [train.input(), train.output()].into_iter();
            cuts.len() + shaft - before.filter(|other| *other < shaft).count()
        }
    };
    let row = |terms: &[(Option<usize>, i64)]| {
        let mut row: Row = vec![BigInt::ZERO; count];
        for (column, factor) in terms {
            if let Some(column) = column {
                row[*column] += BigInt::from(*factor);
            }
        }
        row
    };
    let on = |body: Body| match body {
        Body::Housing => None,
        Body::Shaft(shaft) => Some(column(shaft)),
    };
    let mut echelon = Echelon::default();
    for (index, coupling) in scenario.couplings.iter().enumerate() {
        for mesh in coupling.facts().mesh_rows() {
            let members = mesh.into_iter().enumerate().map(|(member, factor)| {
                let cut = cuts.iter().position(|cut| *cut == (index, member));
                let place = cut.or_else(|| on(train.members(index)[member]));
                (place, factor)
            });
            echelon.add(row(&members.collect::<Vec<_>>()));
        }
    }
    for &element in applied {
        let [first, second] = train.ends(element);
        echelon.add(row(&[(on(first), 1), (on(second), -1)]));
    }
    let only = |column: usize| row(&[(Some(column), 1)]);
    let (output, input) = (count - 2, count - 1);
    if echelon.implies(only(input)) {
        return Seen::Tied;
    }
    if echelon.implies(only(output)) {
        return Seen::Held;
    }
    // One more equation that stops the input: where that stops the output too, it decides it.
    let stopped = echelon.with(only(input));
    if !stopped.implies(only(output)) {
        return Seen::Neutral;
    }
    // a·ω(out) + b·ω(in) = 0 is then what leads with the output.
    let Some(last) = echelon.led_by(output) else {
        panic!("nothing leads with the output, and yet it is decided")
    };
    let ratio = Fraction::from_big(-last[output].clone(), last[input].clone());
    Seen::Drives(ratio.unwrap_or_else(|| panic!("the output is held, and yet it turns")))
}

/// What a train does, by the core's settling of one-way clutches (which has tests of its own).
pub(super) fn settled(train: &Train, applied: &Applied, duty: Duty) -> Seen {
    let settled = train.settle(applied.iter().copied().collect(), duty);
    match settled.verdict {
        Verdict::Settled => {}
        Verdict::Ambiguous(_) => return Seen::Undecided,
        // None that locks carries torque: is there any set of them with which all can turn?
        Verdict::Contradictory => {
            let found = (0..1_u32 << train.scenario().elements.len())
                .map(ElementSet::from_bits)
                .filter(|locked| locked.minus(train.one_ways()).is_empty())
                .find_map(|locked| turns_with(train, applied, locked));
            return found.map_or(Seen::Tied, Seen::Drives);
        }
    }
    match settled.combination.state().key() {
        "neutral" => Seen::Neutral,
        "output-held" => Seen::Held,
        "tied-up" => Seen::Tied,
        _ => match settled.combination.state().ratio() {
            Some(ratio) => Seen::Drives(ratio.clone()),
            None => Seen::Undecided,
        },
    }
}

/// The ratio with these one-way clutches locked, where every slip is decided and none is the way that its clutch
/// locks.
fn turns_with(train: &Train, applied: &Applied, locked: ElementSet) -> Option<Fraction> {
    let applied: ElementSet = applied.iter().copied().collect();
    let combination = train.solve(applied.union(locked));
    let allowed = train.one_ways().iter().all(|element| {
        let slip = combination.slip(element).map(|slip| slip.to_f64());
        let Element::OneWay(one_way) = &train.scenario().elements[element] else {
            return false;
        };
        match one_way.locks {
            Way::Forward => slip.is_some_and(|slip| slip <= 0.0),
            Way::Backward => slip.is_some_and(|slip| slip >= 0.0),
        }
    });
    combination.state().ratio().filter(|_| allowed).cloned()
}

/// The train that somebody has broken by hand, in its file; nothing where no file could say so. Its elements
/// keep their order, less those one-way clutches that no longer hold.
pub(super) fn broken(train: &Train, faults: &[Fault]) -> Option<(Train, Vec<usize>)> {
    let mut scenario: Scenario = train.scenario().clone();
    scenario.ranges.clear();
    let mut gone = Vec::new();
    for (index, fault) in faults.iter().enumerate() {
        match *fault {
            Fault::BrokenSpline(coupling, member) => {
                let id = format!("own-{index}");
                let parts = scenario.couplings[coupling].parts();
                let shaft = parts.shafts.into_iter().nth(member)??;
                shaft.clone_from(&id);
                let label = id.clone();
                scenario.shafts.push(Shaft { id, label });
            }
            Fault::DoesNotHold(element) => gone.push(element),
            Fault::StaysLocked(element) => {
                let Element::OneWay(one_way) = scenario.elements[element].clone() else {
                    return None;
                };
                let (id, label, shaft) = (one_way.id, one_way.label, one_way.shaft);
                let (friction, gap) = (None, None);
                scenario.elements[element] = match one_way.against.as_str() {
                    HOUSING => Element::Brake(Brake {
                        id,
                        label,
                        shaft,
                        friction,
                        gap,
                    }),
                    against => {
                        let between = [shaft, against.to_owned()];
                        Element::Clutch(Clutch {
                            id,
                            label,
                            between,
                            friction,
                            gap,
                        })
                    }
                };
            }
            Fault::WillNotApply(_) | Fault::WillNotRelease(_) | Fault::Slips(_) => {}
        }
    }
    let kept: Vec<usize> = (0..scenario.elements.len())
        .filter(|x| !gone.contains(x))
        .collect();
    scenario.elements = kept.iter().map(|&x| scenario.elements[x].clone()).collect();
    // More shafts than a file may have.
    Train::new(scenario).ok().map(|train| (train, kept))
}

/// Small trains with three ranges, in some of which elements are one-way clutches.
pub(super) fn trains() -> impl Strategy<Value = Train> {
    let kind = Kind {
        couplings: 3,
        elements: 4,
        ..ANY
    };
    let ranges = vec(vec(prop::bool::weighted(0.5), 4), 3);
    // One in four is a one-way clutch, of either way.
    let one_ways = vec(prop::option::weighted(0.25, any::<bool>()), 4);
    (sketch(kind), ranges, one_ways).prop_map(|(mut sketch, ranges, one_ways)| {
        for (index, range) in ranges.iter().enumerate() {
            let elements = sketch.elements.iter().zip(range.iter().zip(&one_ways));
            let applied = elements
                .filter(|(_, (on, one_way))| **on && one_way.is_none())
                .map(|(element, _)| element.id.clone());
            sketch.ranges.push((format!("r{index}"), applied.collect()));
        }
        let mut file = sketch.to_json();
        for (index, (element, one_way)) in sketch.elements.iter().zip(&one_ways).enumerate() {
            let Some(backward) = one_way else { continue };
            let locks = if *backward { "backward" } else { "forward" };
            file["elements"][index] = json!({"kind": "one-way", "id": element.id, "label": element.id,
                "shaft": element.ends[0], "against": element.ends[1], "locks": locks});
        }
        let text = file.to_string();
        Train::parse(&text).unwrap_or_else(|problems| panic!("{problems:#?}\nin {text}"))
    })
}
