//! Teeth of gears in mesh interlock, always.

use std::f64::consts::TAU;

use levertrain_core::coupling::Partner;
use levertrain_core::{Body, Fraction, Lever};

use super::super::gears::{Standing, stand};
use super::super::subject::Subject;
use super::super::teeth::Tooth;
use super::{COUPLINGS, session};
use crate::document::session::Session;
use crate::motion::live::Live;

/// Member angles that the meshes of coupling 0 allow: they lie on a line over the places of its
/// lever. The ends of the line are given; the housing's angle is zero.
fn turned<'a>(session: &'a Session, first: f64, second: f64) -> Live<'a> {
    let train = session.train();
    let bodies = train.members(0);
    let Some(lever) = Lever::of(&train.scenario().couplings[0]) else {
        panic!("every coupling has a lever");
    };
    let places: Vec<f64> = lever.places.iter().map(Fraction::to_f64).collect();
    let housing = bodies.iter().position(|&body| body == Body::Housing);
    let mut live = session.live();
    for (&body, place) in bodies.iter().zip(&places) {
        if let Body::Shaft(shaft) = body {
            live.angles[shaft] = match housing {
                Some(housing) => first * (place - places[housing]),
                None => first * (1.0 - place) + second * place,
            };
        }
    }
    live
}

/// Pairs of gears in mesh in a coupling turned so.
fn for_each_mesh(live: &Live<'_>, mut visit: impl FnMut(&Standing, &Standing)) {
    let Some(subject) = Subject::of(live, 0) else {
        panic!("there is a coupling");
    };
    let profile = &subject.profile;
    let gears = stand(profile, &subject.turns(), 0.3);
    let copies = |gear: usize| gears.iter().filter(move |own| own.gear == gear);
    for gear in 0..profile.gears.len() {
        let Some(Partner::Meshes(partner)) = profile.gears[gear].partner else {
            continue;
        };
        let count = copies(gear).count().max(copies(partner).count());
        for copy in 0..count {
            let pick = |gear| copies(gear).cycle().nth(copy);
            if let (Some(a), Some(b)) = (pick(partner), pick(gear)) {
                visit(a, b);
            }
        }
    }
}

/// Where the pitch circles of two gears touch, and the direction to there from each centre.
fn pitch_point(a: &Standing, b: &Standing) -> ((f64, f64), f64, f64) {
    let away = (b.centre.1 - a.centre.1).atan2(b.centre.0 - a.centre.0);
    let (from_a, from_b) = if b.internal {
        (away + TAU / 2.0, away + TAU / 2.0)
    } else {
        (away, away + TAU / 2.0)
    };
    let point = (
        a.centre.0 + a.pitch * from_a.cos(),
        a.centre.1 + a.pitch * from_a.sin(),
    );
    (point, from_a, from_b)
}

#[test]
fn a_tooth_faces_a_space_at_every_pitch_point_however_far_all_turns() {
    for coupling in COUPLINGS {
        let session = session(coupling);
        for step in 0..60 {
            let (first, second) = (f64::from(step) * 1.37, f64::from(step) * -0.61);
            for_each_mesh(&turned(&session, first, second), |a, b| {
                let (_, from_a, from_b) = pitch_point(a, b);
                let past = |gear: &Standing, direction: f64| {
                    f64::from(gear.teeth) * (direction - gear.lead) / TAU
                };
                let sum = if b.internal {
                    past(a, from_a) - past(b, from_b)
                } else {
                    past(a, from_a) + past(b, from_b)
                };
                let off = (sum - 0.5) - (sum - 0.5).round();
                assert!(off.abs() < 1e-9, "{a:?} and {b:?}: {off} of a pitch");
            });
        }
    }
}

/// Angles spread over a full turn with no step in common with any tooth count.
fn scattered(step: u32) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_895;
    TAU * (f64::from(step) * GOLDEN).fract()
}

/// The slice of a gear around a direction, five teeth to each side, in modules.
fn slice(gear: &Standing, direction: f64) -> Vec<(f64, f64)> {
    let step = TAU / f64::from(gear.teeth);
    let nearest = gear.lead + ((direction - gear.lead) / step).round() * step;
    let (x, y) = gear.centre;
    let mut corners = vec![gear.centre];
    for tooth in -5..=5 {
        let turned = Standing {
            lead: nearest + f64::from(tooth) * step,
            ..*gear
        };
        let points = Tooth::of(&turned, 6).each().next().unwrap_or_default();
        let place =
            |(radius, angle): (f64, f64)| (x + radius * angle.cos(), y + radius * angle.sin());
        corners.extend(points.into_iter().map(place));
    }
    corners.push(gear.centre);
    corners
}

/// Whether a point is inside a closed outline (even-odd rule).
fn encloses(outline: &[(f64, f64)], (x, y): (f64, f64)) -> bool {
    let crosses = |pair: &[(f64, f64)]| {
        let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
        (ay > y) != (by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax)
    };
    outline.windows(2).filter(|pair| crosses(pair)).count() % 2 == 1
}

/// How far a point is from an outline.
fn distance(outline: &[(f64, f64)], (x, y): (f64, f64)) -> f64 {
    let from = |pair: &[(f64, f64)]| {
        let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
        let (dx, dy) = (bx - ax, by - ay);
        let along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy).max(1e-12);
        let along = along.clamp(0.0, 1.0);
        (x - ax - along * dx).hypot(y - ay - along * dy)
    };
    outline.windows(2).map(from).fold(f64::INFINITY, f64::min)
}

/// Whether there is metal of a gear at a point near the pitch point.
fn solid(gear: &Standing, slice: &[(f64, f64)], point: (f64, f64)) -> bool {
    encloses(slice, point) != gear.internal
}

#[test]
fn metal_of_exactly_one_gear_is_at_the_pitch_point_but_for_the_backlash() {
    const STEPS: u32 = 240;
    for coupling in COUPLINGS {
        let session = session(coupling);
        let (mut meshes, mut gaps) = (0, 0);
        for step in 0..STEPS {
            let first = scattered(step);
            for_each_mesh(&turned(&session, first, 0.21), |a, b| {
                let (point, from_a, from_b) = pitch_point(a, b);
                let metal = [(a, from_a), (b, from_b)]
                    .map(|(gear, direction)| solid(gear, &slice(gear, direction), point));
                assert_ne!(metal, [true, true], "{a:?} and {b:?} overlap");
                meshes += 1;
                gaps += u32::from(metal == [false, false]);
            });
        }
        let share = f64::from(gaps) / f64::from(meshes);
        assert!(
            share > 0.0 && share < 0.1,
            "{coupling}: nothing at the pitch point in {share}"
        );
    }
}

/// How deep a corner of one gear near the pitch point lies in the metal of the other, in modules.
fn bite(a: &Standing, b: &Standing) -> f64 {
    let (point, from_a, from_b) = pitch_point(a, b);
    let slices = [slice(a, from_a), slice(b, from_b)];
    let mut deepest: f64 = 0.0;
    for (own, other, gear) in [(0, 1, b), (1, 0, a)] {
        let near = |&&(x, y): &&(f64, f64)| (x - point.0).hypot(y - point.1) < 5.0;
        for &corner in slices[own].iter().filter(near) {
            if solid(gear, &slices[other], corner) {
                deepest = deepest.max(distance(&slices[other], corner));
            }
        }
    }
    deepest
}

#[test]
fn teeth_in_mesh_do_not_cut_into_each_other() {
    // Tooth depth is 2.25. What is allowed is what straight roots in place of a cutter's
    // fillets, and straight pieces in place of curves, may cost.
    const ALLOWED: f64 = 0.05;
    for coupling in COUPLINGS {
        let session = session(coupling);
        for step in 0..12 {
            for_each_mesh(&turned(&session, scattered(step), 0.21), |a, b| {
                let deep = bite(a, b);
                assert!(deep <= ALLOWED, "{coupling}: {deep} modules deep");
                // The measure itself must see teeth that are a quarter pitch out of step.
                let quarter = TAU / f64::from(a.teeth) / 4.0;
                let wrong = Standing {
                    lead: a.lead + quarter,
                    ..*a
                };
                assert!(
                    bite(&wrong, b) > 4.0 * ALLOWED,
                    "{coupling}: nothing noticed"
                );
            });
        }
    }
}
