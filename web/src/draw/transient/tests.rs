use levertrain_core::Train;
use levertrain_core::transient::{Dynamics, Plan, Shift};
use levertrain_core::words::word;

use super::bands::WRONG;
use super::strips::KEPT;
use super::{View, extents, places, scene};
use crate::draw::scene::{Mark, Scene, Stroke};
use crate::draw::tests::{again_in_german, scenarios};
use crate::units::speed_unit::SpeedUnit;
use crate::units::torque_unit::TorqueUnit;

const WIDTHS: [f64; 4] = [280.0, 350.0, 640.0, 1200.0];

struct Seen {
    name: String,
    train: Train,
    dynamics: Dynamics,
    shift: Shift,
}

/// Shifts of all scenarios between neighbours, as usual and with the release too soon, so that some flare and some bind.
fn shifts() -> Vec<Seen> {
    let mut all = Vec::new();
    for (name, text) in scenarios() {
        let train = Train::parse(&text).unwrap();
        let (dynamics, _) = Dynamics::of(&train);
        for from in 1..train.scenario().ranges.len() {
            for sooner in [0.0, 0.15] {
                let sets = [from - 1, from].map(|range| train.range(range));
                let mut plan = Plan::usual(&train, &dynamics, sets[0], sets[1]);
                for command in &mut plan.commands {
                    if !plan.to.contains(command.element) {
                        command.at = (command.at - sooner).max(0.0);
                    }
                }
                let Ok(shift) = Shift::of(&train, &dynamics, plan) else {
                    continue;
                };
                all.push(Seen {
                    name: format!("{name}, to range {from}, {sooner} s sooner"),
                    train: train.clone(),
                    dynamics: dynamics.clone(),
                    shift,
                });
            }
        }
    }
    all
}

fn view<'a>(seen: &'a Seen, shafts: &'a [usize]) -> View<'a> {
    View {
        train: &seen.train,
        dynamics: &seen.dynamics,
        shift: &seen.shift,
        kept: None,
        shafts,
        lit: None,
        time: 0.3,
        units: (SpeedUnit::RevPerMin, TorqueUnit::NewtonMetre),
        extents: None,
        reach: 32.0,
    }
}

fn strokes(scene: &Scene, wanted: Stroke) -> usize {
    let is_wanted = |mark: &&Mark| matches!(mark, Mark::Path { stroke, .. } if *stroke == wanted);
    scene.marks.iter().filter(is_wanted).count()
}

fn nothing_overlaps() {
    for seen in shifts() {
        let all: Vec<usize> = (0..seen.train.scenario().shafts.len()).collect();
        for shafts in [&[0, 1][..], &all] {
            for width in WIDTHS {
                let scene = scene(&view(&seen, shafts), width);
                let labels: Vec<_> = scene.labels().collect();
                for (at, label) in labels.iter().enumerate() {
                    let bounds = label.bounds();
                    let inside = bounds.left >= 0.0
                        && bounds.left + bounds.width <= scene.width + 0.5
                        && bounds.top >= 0.0
                        && bounds.top + bounds.height <= scene.height;
                    assert!(inside, "{}, {width}: {} leaves it", seen.name, label.text);
                    for other in &labels[at + 1..] {
                        assert!(
                            !bounds.overlaps(&other.bounds()),
                            "{}, {width}: {} and {}",
                            seen.name,
                            label.text,
                            other.text
                        );
                    }
                }
            }
        }
    }
}

/// Catches labels over each other or outside, whatever is drawn and however narrow it is, in both languages.
#[test]
fn labels_keep_apart_and_inside() {
    nothing_overlaps();
    again_in_german(&[nothing_overlaps]);
}

/// Catches a flare or a tie-up that is not marked, and marks where there is none.
#[test]
fn what_is_wrong_is_hatched_and_said() {
    let (mut right, mut flares, mut binds) = (0, 0, 0);
    for seen in shifts() {
        let marks = &seen.shift.marks;
        let scene = scene(&view(&seen, &[0, 1]), 900.0);
        let said = |message| scene.labels().any(|label| label.text == word(message));
        let is_wrong = !marks.flares.is_empty() || !marks.binds.is_empty();
        assert_eq!(strokes(&scene, WRONG) > 0, is_wrong, "{}", seen.name);
        assert_eq!(said("diagram-timed-wrong"), is_wrong, "{}", seen.name);
        // One of both may have no room beside the other.
        if is_wrong {
            assert!(
                said("diagram-timed-flare") || said("diagram-timed-bind"),
                "{}",
                seen.name
            );
        }
        right += usize::from(!is_wrong);
        flares += usize::from(!marks.flares.is_empty());
        binds += usize::from(!marks.binds.is_empty());
    }
    assert!(
        right > 3 && flares > 3 && binds > 3,
        "{right} {flares} {binds}"
    );
}

/// Catches handles that stand beside the ramps that they move.
#[test]
fn grips_stand_at_the_times_of_their_commands() {
    for seen in shifts() {
        let view = view(&seen, &[0, 1]);
        let places = places(&view, 700.0);
        let plan = &seen.shift.plan;
        assert_eq!(places.grips.len(), plan.commands.len());
        for (grips, command) in places.grips.iter().zip(&plan.commands) {
            let applies = plan.to.contains(command.element);
            let fill = match applies {
                true => seen.dynamics.fill_time(command.element).value,
                false => 0.0,
            };
            let times = [command.at, command.at + fill + command.ramp];
            for (&[x, y], time) in grips.iter().zip(times) {
                let along = (x - places.left) / (places.right - places.left) * plan.until;
                assert!(
                    (along - time).abs() < 1e-6,
                    "{}: {along} for {time}",
                    seen.name
                );
                assert!((0.0..places.bottom).contains(&y));
            }
            // What is released goes down, what is applied goes up.
            assert_eq!(grips[0][1] > grips[1][1], applies, "{}", seen.name);
        }
    }
}

/// Catches a picture that says nothing of what was kept, and scales that move while something is dragged.
#[test]
fn what_was_kept_lies_behind_and_scales_can_be_held() {
    let all = shifts();
    let pair = all.windows(2).find(|pair| {
        pair[0].shift.plan.to == pair[1].shift.plan.to
            && pair[0].train.scenario() == pair[1].train.scenario()
    });
    let [one, other] = pair.unwrap() else {
        unreachable!("windows are of two")
    };
    let plain = view(one, &[0, 1]);
    let beside = View {
        kept: Some(&other.shift),
        ..plain
    };
    assert_eq!(strokes(&scene(&plain, 700.0), KEPT), 0);
    assert!(strokes(&scene(&beside, 700.0), KEPT) >= 4);
    let held = extents(&beside).map(|[low, high]| [low * 2.0 - 1.0, high * 2.0 + 1.0]);
    let holding = View {
        extents: Some(held),
        ..plain
    };
    assert_eq!(extents(&holding), held);
}
