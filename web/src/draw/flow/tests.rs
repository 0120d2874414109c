//! The flow of every driving range of every scenario: what goes in comes out, nothing on top
//! of anything, loops to be seen.

use levertrain_core::{ElementSet, PowerFlow, Torques};

use super::ribbon::{Ribbon, Run};
use super::sheet::BEND;
use super::*;
use crate::draw::scene::{Ink, Mark, at};
use crate::draw::tests::sessions;

const WIDTHS: [f64; 3] = [360.0, 720.0, 1100.0];

/// Calls `check` with every range whose powers are known, named, and the pages it is drawn on.
fn each_range(mut check: impl FnMut(&str, &Live<'_>, &[(f64, f64)])) {
    let mut checked = 0;
    for (name, mut session) in sessions() {
        for range in 0..session.train().scenario().ranges.len() {
            session.apply(session.train().range(range));
            session.settle();
            let live = session.live();
            if Powers::of(&live.train.solve(live.applied)).is_ok() {
                let pages = WIDTHS.map(|width| {
                    let (_, height) =
                        needed(&live, &live.train.solve(live.applied), width).unwrap();
                    (width, height)
                });
                let label = &live.train.scenario().ranges[range].label;
                check(&format!("{name}, {label}"), &live, &pages);
                checked += 1;
            }
        }
    }
    assert!(checked > 20, "only {checked} ranges drive");
}

fn framed(live: &Live<'_>, page: (f64, f64)) -> (Network, Frame, Vec<Ribbon>) {
    let combination = live.train.solve(live.applied);
    let network = Network::of(&combination, &Powers::of(&combination).unwrap());
    let arrangement = Arrangement::of(&network);
    let frame = fit(live, &network, &arrangement, page);
    let ribbons = Ribbon::all(&network, &arrangement, &frame);
    (network, frame, ribbons)
}

#[test]
fn labels_keep_apart_and_everything_is_inside() {
    each_range(|name, live, pages| {
        for &(width, height) in pages {
            let scene = scene(live, (width, height));
            assert!(scene.width <= width, "{name}: {} for {width}", scene.width);
            let labels: Vec<_> = scene.labels().collect();
            for (index, label) in labels.iter().enumerate() {
                for other in &labels[index + 1..] {
                    assert!(
                        !label.bounds().overlaps(&other.bounds()),
                        "{name} at {width}: \"{}\" on \"{}\"",
                        label.text,
                        other.text
                    );
                }
            }
            for mark in &scene.marks {
                let points = match mark {
                    Mark::Path { points, .. } | Mark::Fill { points, .. } => points.clone(),
                    Mark::Disc { centre, .. } => vec![*centre],
                    Mark::Text(label) => {
                        let area = label.bounds();
                        let end = at(area.left + area.width, area.top + area.height);
                        vec![at(area.left, area.top), end]
                    }
                };
                let inside = points.iter().all(|point| {
                    (0.0..=scene.width).contains(&point.x)
                        && (0.0..=scene.height).contains(&point.y)
                });
                assert!(inside, "{name} at {width}: {mark:?} leaves the drawing");
            }
        }
    });
}

#[test]
fn words_in_a_box_stay_in_it() {
    each_range(|name, live, pages| {
        for &(width, height) in pages {
            let (_, frame, _) = framed(live, (width, height));
            for block in &frame.blocks {
                for (place, label) in &block.texts {
                    let (x, y) = frame.sheet.page((place.along, place.across));
                    let area = crate::draw::scene::Label {
                        at: at(x, y),
                        ..label.clone()
                    }
                    .bounds();
                    let (left, top) = frame.sheet.page((0.0, -block.across[0]));
                    let (right, bottom) = frame.sheet.page((block.along, block.across[1]));
                    let inside = area.left >= left
                        && area.left + area.width <= right
                        && area.top >= top
                        && area.top + area.height <= bottom;
                    assert!(
                        inside,
                        "{name} at {width}: \"{}\" leaves its box",
                        label.text
                    );
                }
            }
        }
    });
}

/// Widths of the bands that end at a box less those that begin at it, both as they are drawn.
fn net_into(frame: &Frame, place: usize, ribbons: &[Ribbon]) -> f64 {
    let block = &frame.blocks[place];
    let legs: Vec<&Run> = ribbons.iter().flat_map(|ribbon| &ribbon.legs).collect();
    let mut net = 0.0;
    for meeting in &block.meetings {
        let along = frame.starts[place] + meeting.spot.along;
        let here = |spot: super::sheet::Spot| {
            (spot.along - along).abs() < 1e-9 && (spot.across - meeting.spot.across).abs() < 1e-9
        };
        let ending = legs.iter().filter(|run| here(run.to)).map(|run| run.width);
        let beginning = legs
            .iter()
            .filter(|run| here(run.from))
            .map(|run| run.width);
        let (ending, beginning): (f64, f64) = (ending.sum(), beginning.sum());
        assert!(ending + beginning > 0.0, "no band meets {:?}", meeting);
        net += ending - beginning;
    }
    net
}

#[test]
fn as_wide_a_band_leaves_every_box_as_enters_it() {
    each_range(|name, live, pages| {
        for &(width, height) in pages {
            let (_, frame, ribbons) = framed(live, (width, height));
            for place in 0..frame.blocks.len() {
                let net = net_into(&frame, place, &ribbons) / frame.sheet.unit;
                assert!(
                    net.abs() < 1e-9,
                    "{name} at {width}: {net} stays in box {place}"
                );
            }
        }
    });
}

#[test]
fn every_rail_carries_what_its_legs_leave_on_it() {
    let mut legs = 0;
    each_range(|name, live, pages| {
        for &(width, height) in pages {
            let (network, frame, ribbons) = framed(live, (width, height));
            for ribbon in ribbons.iter().filter(|ribbon| !ribbon.rails.is_empty()) {
                // Power on the rail towards the output, as wide as it is drawn, at a place.
                let drawn = |along: f64| -> f64 {
                    let over = ribbon.rails.iter().filter(|run| {
                        let (a, b) = (run.from.along, run.to.along);
                        a.min(b) <= along && along <= a.max(b)
                    });
                    over.map(|run| run.width * (run.to.along - run.from.along).signum())
                        .sum()
                };
                let unit = frame.sheet.unit;
                let mut expected = if ribbon.shaft == network.input {
                    unit
                } else {
                    0.0
                };
                for (index, leg) in ribbon.legs.iter().enumerate() {
                    let outer = leg.from.across.abs() > leg.to.across.abs();
                    expected -= if outer { leg.width } else { -leg.width };
                    let end = leg.from.along + leg.width / 2.0 + BEND;
                    let next = ribbon
                        .legs
                        .get(index + 1)
                        .map_or(frame.ends[1], |leg| leg.from.along - leg.width / 2.0 - BEND);
                    assert!(
                        next > end,
                        "{name} at {width}: bends of a rail run together"
                    );
                    let found = drawn((end + next) / 2.0);
                    assert!(
                        (found - expected).abs() < 1e-9 * unit,
                        "{name} at {width}: {found} drawn for {expected}"
                    );
                    legs += 1;
                }
            }
        }
    });
    assert!(legs > 100, "only {legs} legs");
}

#[test]
fn recirculating_power_is_a_loop_with_its_share() {
    let (mut loops, mut plain) = (0, 0);
    each_range(|name, live, pages| {
        let combination = live.train.solve(live.applied);
        let torques = Torques::of(&combination).unwrap();
        let most = PowerFlow::of(&combination, &torques).recirculating();
        let (network, _, ribbons) = framed(live, pages[2]);
        let looped = ribbons.iter().flat_map(|r| r.rails.iter().chain(&r.legs));
        let looped: Vec<&Run> = looped.filter(|run| run.looped).collect();
        let Some(most) = most else {
            plain += usize::from(looped.is_empty());
            return;
        };
        loops += 1;
        // A loop has a way on and a way back.
        for sign in [1.0, -1.0] {
            let found = looped
                .iter()
                .any(|run| (run.to.along - run.from.along) * sign > 0.0);
            assert!(found, "{name}: the loop is not closed");
        }
        let (_, port) = network.largest_loop().unwrap();
        assert_eq!(port.power.abs(), most.to_f64(), "{name}");
        let share = format!(
            "{} × input",
            levertrain_core::words::number(most.to_f64(), 3)
        );
        let scene = scene(live, pages[2]);
        assert!(
            scene.labels().any(|label| label.text == share),
            "{name}: {share}"
        );
    });
    assert!(
        loops > 3 && plain > 3,
        "{loops} ranges with loops, {plain} without"
    );
}

#[test]
fn input_and_output_are_named_at_their_ends() {
    each_range(|name, live, pages| {
        for &(width, height) in pages {
            let (_, frame, ribbons) = framed(live, (width, height));
            let ends: Vec<_> = (0..2)
                .map(|end| ribbons.iter().filter(|r| r.ends[end].is_some()).count())
                .collect();
            assert_eq!(ends, [1, 1], "{name} at {width}");
            assert!(frame.ends[0] < frame.ends[1]);
        }
    });
}

#[test]
fn a_straight_band_is_straight() {
    each_range(|name, live, pages| {
        let (_, _, ribbons) = framed(live, pages[1]);
        for ribbon in ribbons.iter().filter(|ribbon| ribbon.rails.is_empty()) {
            let [leg] = ribbon.legs.as_slice() else {
                panic!("{name}: a straight band in {} pieces", ribbon.legs.len());
            };
            assert_eq!(leg.from.across, leg.to.across, "{name}");
            assert!(leg.from.along != leg.to.along, "{name}");
        }
    });
}

#[test]
fn what_does_not_drive_gets_a_sentence() {
    let mut sentences = 0;
    for (name, mut session) in sessions() {
        session.apply(ElementSet::NONE);
        for elements in [0_u32, u32::MAX] {
            let count = session.train().scenario().elements.len();
            let set = ElementSet::from_bits(elements & ((1 << count) - 1));
            session.apply(set);
            session.settle();
            let live = session.live();
            if Powers::of(&live.train.solve(set)).is_ok() {
                continue;
            }
            sentences += 1;
            let scene = scene(&live, (360.0, 200.0));
            let words: Vec<_> = scene.labels().map(|label| label.text.as_str()).collect();
            let words = words.join(" ");
            assert!(words.ends_with('.') && words.len() > 20, "{name}: {words}");
            assert_eq!(
                scene.labels().count(),
                scene.marks.len(),
                "{name}: only words"
            );
        }
    }
    assert!(sentences > 3, "{sentences} sentences");
}

#[test]
fn the_preferred_height_holds_every_range_that_lies_the_same_way() {
    for (name, mut session) in sessions() {
        for width in WIDTHS {
            let mut heights = Vec::new();
            for range in 0..session.train().scenario().ranges.len() {
                session.apply(session.train().range(range));
                let live = session.live();
                let combination = live.train.solve(live.applied);
                if let Some((upright, least)) = needed(&live, &combination, width) {
                    let preferred = height(&live, width);
                    assert!(
                        preferred >= least,
                        "{name} at {width}: {preferred} < {least}"
                    );
                    heights.push((upright, preferred));
                }
            }
            for way in [false, true] {
                let mut alike = heights.iter().filter(|(upright, _)| *upright == way);
                let first = alike.next();
                let same = alike.all(|other| Some(other) == first);
                assert!(same, "{name} at {width}: {heights:?}");
            }
        }
    }
}

#[test]
fn the_key_says_what_the_two_inks_mean() {
    let (mut with, mut without) = (0, 0);
    each_range(|name, live, pages| {
        for &page in pages {
            let drawn = scene(live, page);
            let round = drawn
                .marks
                .iter()
                .any(|mark| matches!(mark, Mark::Fill { ink, .. } if *ink == Ink::Round));
            let said = drawn
                .labels()
                .any(|label| label.text == "power that goes round");
            assert_eq!(said, round, "{name}");
            *if said { &mut with } else { &mut without } += 1;
        }
    });
    assert!(with > 3 && without > 3, "{with} and {without}");
}

#[test]
fn labels_are_clear_in_german_too() {
    crate::draw::tests::again_in_german(&[
        labels_keep_apart_and_everything_is_inside,
        words_in_a_box_stay_in_it,
    ]);
}
