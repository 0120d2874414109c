//! Checks of both plots as a scene.

use levertrain_core::traction::{Ask, Rule};

use super::*;
use crate::draw::scene::{Label, Mark};
use crate::draw::tests::{again_in_german, scenarios};
use crate::units::torque_unit::TorqueUnit;

fn ask(locked_from: Option<usize>, rule: Rule) -> Ask {
    Ask {
        mesh_efficiency: 0.985,
        locked_from,
        rule,
        targets: Vec::new(),
    }
}

/// Every scenario with an engine, each way, narrow and wide, in both units.
fn check_all(check: impl Fn(&View<'_>, &Scene)) {
    let mut seen = 0;
    for (_, text) in scenarios() {
        let Ok(train) = Train::parse(&text) else {
            panic!("a scenario is broken");
        };
        for (locked_from, torque) in [
            (None, TorqueUnit::NewtonMetre),
            (Some(1), TorqueUnit::PoundForceFoot),
            (Some(0), TorqueUnit::NewtonMetre),
        ] {
            let Ok(traction) = Traction::of(&train, &ask(locked_from, Rule::Force)) else {
                continue;
            };
            seen += 1;
            for (width, present) in [(340.0, Some(0)), (600.0, None), (1000.0, Some(2))] {
                let view = View {
                    train: &train,
                    traction: &traction,
                    slopes: &[0.05, 0.1, 0.2, 0.3],
                    present,
                    cursor: None,
                    speed_unit: SpeedUnit::RevPerMin,
                    road_unit: RoadUnit::with(torque),
                };
                check(&view, &scene(&view, width));
            }
        }
    }
    assert!(seen >= 12);
}

#[test]
fn names_do_not_overlap_and_stay_inside() {
    fn check() {
        check_all(|_, scene| {
            let labels: Vec<&Label> = scene.labels().collect();
            for (index, label) in labels.iter().enumerate() {
                let bounds = label.bounds();
                assert!(bounds.left >= 0.0 && bounds.top >= 0.0, "{label:?}");
                assert!(bounds.left + bounds.width <= scene.width, "{label:?}");
                assert!(bounds.top + bounds.height <= scene.height, "{label:?}");
                for other in &labels[..index] {
                    assert!(!bounds.overlaps(&other.bounds()), "{label:?} {other:?}");
                }
            }
        });
    }
    check();
    again_in_german(&[check]);
}

/// Every range is named in the key, and in a plot that is wide enough beside its line as well.
#[test]
fn every_range_is_named() {
    check_all(|view, scene| {
        for line in lines(view) {
            let named = scene
                .labels()
                .filter(|label| label.text == line.name)
                .count();
            let least = if scene.width >= 600.0 { 2 } else { 1 };
            assert!(
                named >= least,
                "{} is named {named} times at {}",
                line.name,
                scene.width
            );
        }
    });
}

/// Lines that drive the same way differ in how they are broken or in width, neighbours in the former, and the one that is applied is wider than all others.
#[test]
fn lines_are_told_apart_without_colour() {
    check_all(|view, scene| {
        let all = lines(view);
        for pair in all
            .windows(2)
            .filter(|pair| pair[0].stroke.ink == pair[1].stroke.ink)
        {
            assert_ne!(pair[0].stroke.dash, pair[1].stroke.dash);
        }
        let drawn = |line: &Line| (line.stroke.ink, line.stroke.dash, line.stroke.width);
        for (at, line) in all.iter().enumerate() {
            let alike = all[..at].iter().filter(|other| drawn(other) == drawn(line));
            assert!(alike.count() == 0 || all.len() > 9, "{}", line.name);
        }
        let wide = all.iter().filter(|line| line.stroke.width > 3.0).count();
        assert_eq!(wide, usize::from(view.present.is_some()));
        let inside = |point: &Point| {
            (-0.01..=scene.width + 0.01).contains(&point.x)
                && (-0.01..=scene.height + 0.01).contains(&point.y)
        };
        for mark in &scene.marks {
            if let Mark::Path { points, .. } = mark {
                assert!(points.iter().all(inside), "a line leaves the drawing");
            }
        }
    });
}

/// A point on a range's line leads to that range, and one that is far from all to none.
#[test]
fn what_is_near_a_line_is_its_range() {
    check_all(|view, scene| {
        let figure = Figure::new(view, scene.width);
        let mut found = 0;
        for line in &figure.lines {
            let [force, _] = figure.pieces(view, line);
            // Somewhere on it no other line is as near.
            let hit = force
                .iter()
                .flatten()
                .any(|point| nearest(view, scene.width, *point) == Some(line.ranges[0]));
            found += usize::from(hit);
        }
        assert_eq!(found, figure.lines.len());
        assert_eq!(nearest(view, scene.width, at(-500.0, -500.0)), None);
    });
}

/// Where the mark of a speed stands: `places` says it, and the cursor is drawn there.
#[test]
fn the_cursor_is_where_places_say() {
    check_all(|view, scene| {
        let Places {
            left,
            right,
            fastest,
            height,
        } = places(view, scene.width);
        assert_eq!(height, scene.height);
        let with = View {
            cursor: Some(fastest / 4.0),
            ..*view
        };
        let expected = left + (right - left) / 4.0;
        let marks = super::scene(&with, scene.width).marks;
        let lit = marks.iter().filter_map(|mark| match mark {
            Mark::Path { points, stroke } if *stroke == CURSOR_LINE => Some(points),
            _ => None,
        });
        let lines: Vec<_> = lit.collect();
        assert_eq!(lines.len(), 2);
        for point in lines.into_iter().flatten() {
            assert!((point.x - expected).abs() < 1e-9);
        }
    });
}
