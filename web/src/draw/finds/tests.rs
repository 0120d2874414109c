use levertrain_core::words::word;

use super::*;
use crate::draw::scene::{Bounds, Label, Mark};

fn measure(values: &[f64], rises: bool) -> Measure {
    Measure {
        name: "Some measure, %".to_owned(),
        values: values.to_vec(),
        rises,
    }
}

fn view(across: &[f64], up: &[f64]) -> View {
    View {
        measures: [measure(across, false), measure(up, false)],
        chosen: None,
        present: None,
    }
}

fn discs(scene: &Scene, wanted: f64) -> usize {
    let discs = scene
        .marks
        .iter()
        .filter(|mark| matches!(mark, Mark::Disc { radius, .. } if (radius - wanted).abs() < 1e-9));
    discs.count()
}

/// Against each point beside every other: the definition.
#[test]
fn filled_points_are_those_that_none_beats_in_both() {
    let across = [1.0, 2.0, 2.0, 3.0, 0.5, 3.0, 0.5, 2.5];
    let up = [5.0, 3.0, 4.0, 1.0, 9.0, 1.0, 9.5, 3.0];
    for rises in [[false, false], [true, false], [false, true], [true, true]] {
        let view = View {
            measures: [measure(&across, rises[0]), measure(&up, rises[1])],
            ..view(&[], &[])
        };
        let no_worse = |a: f64, b: f64, rises: bool| if rises { a >= b } else { a <= b };
        let beats = |a: usize, b: usize| {
            no_worse(across[a], across[b], rises[0])
                && no_worse(up[a], up[b], rises[1])
                && (across[a], up[a]) != (across[b], up[b])
        };
        let all = 0..across.len();
        let expected: Vec<bool> = all
            .clone()
            .map(|at| !all.clone().any(|other| beats(other, at)))
            .collect();
        assert_eq!(view.is_unbeaten(), expected, "{rises:?}");
        assert!(expected.contains(&true) && expected.contains(&false));
    }
}

#[test]
fn more_of_a_measure_is_farther_right_and_up_and_all_is_inside() {
    let view = view(&[0.5, 1.0, 2.0], &[90.0, 60.0, 78.0]);
    for width in [280.0, 360.0, 900.0] {
        let Places { height, points } = places(&view, width);
        assert!(points[0].x < points[1].x && points[1].x < points[2].x);
        assert!(points[0].y < points[2].y && points[2].y < points[1].y);
        let scene = scene(&view, width);
        assert_eq!((scene.width, scene.height), (width, height));
        let labels: Vec<Bounds> = scene.labels().map(Label::bounds).collect();
        for (at, bounds) in labels.iter().enumerate() {
            assert!(bounds.left >= 0.0 && bounds.left + bounds.width <= width + 0.5);
            assert!(bounds.top >= 0.0 && bounds.top + bounds.height <= height + 0.5);
            let others = &labels[at + 1..];
            assert!(
                !others.iter().any(|other| other.overlaps(bounds)),
                "{width}"
            );
        }
    }
}

#[test]
fn the_one_on_stage_and_the_present_train_have_marks_of_their_own() {
    let plain = view(&[0.5, 1.0, 2.0], &[90.0, 60.0, 78.0]);
    let rings = |view: &View| discs(&scene(view, 500.0), RING);
    let texts = |view: &View| scene(view, 500.0).labels().count();
    assert_eq!(rings(&plain), 0);
    let chosen = View {
        chosen: Some(1),
        ..plain.clone()
    };
    // Its own and that of the key.
    assert_eq!(rings(&chosen), 2);
    assert_eq!(texts(&chosen), texts(&plain) + 1);
    let none = View {
        chosen: Some(7),
        ..plain.clone()
    };
    assert_eq!(rings(&none), 1, "the key alone where it is not among them");
    // Close by it has its place; far off it is a triangle at the edge, and moves no other.
    let close = View {
        present: Some([2.5, 95.0]),
        ..plain.clone()
    };
    let far = View {
        present: Some([40.0, 95.0]),
        ..plain.clone()
    };
    let triangles = |view: &View| {
        let marks = scene(view, 500.0).marks;
        let is_one = |mark: &&Mark| matches!(mark, Mark::Fill { points, .. } if points.len() == 3);
        marks.iter().filter(is_one).count()
    };
    // Its own and that of the key, which then says that it is beyond.
    assert_eq!((triangles(&close), triangles(&far)), (0, 2));
    let says = |view: &View, message| {
        scene(view, 500.0)
            .labels()
            .any(|label| label.text == word(message))
    };
    assert!(says(&far, "diagram-finds-beyond") && !says(&far, "diagram-finds-present"));
    assert!(says(&close, "diagram-finds-present") && !says(&close, "diagram-finds-beyond"));
    let xs = |view: &View| {
        places(view, 500.0)
            .points
            .iter()
            .map(|p| p.x)
            .collect::<Vec<_>>()
    };
    assert_eq!(xs(&far), xs(&plain));
    assert_ne!(xs(&close), xs(&plain));
}

/// Catches a scale of nothing: one find, finds that are alike, none, and measures that are no numbers.
#[test]
fn few_finds_have_a_plot_too() {
    let rows: [(&[f64], &[f64]); 5] = [
        (&[], &[]),
        (&[0.0], &[0.0]),
        (&[1.0, 1.0], &[72.0, 72.0]),
        (&[f64::INFINITY, 1.0], &[3.0, 4.0]),
        (&[1e-12, 1e9], &[0.0, 1.0]),
    ];
    for (across, up) in rows {
        let view = view(across, up);
        let scene = scene(&view, 400.0);
        assert!(scene.marks.len() < 200, "{across:?}");
        for point in places(&view, 400.0).points {
            assert!((0.0..=400.0).contains(&point.x), "{across:?}: {point:?}");
            assert!(
                (0.0..=scene.height).contains(&point.y),
                "{across:?}: {point:?}"
            );
        }
    }
}

/// Catches a triangle at the edge that lies on the point nearest to it, or on the name of an axis.
#[test]
fn what_is_beyond_the_plot_touches_no_point() {
    let view = View {
        present: Some([0.03, 90.0]),
        ..view(&[0.03, 0.44, 1.19, 1.43], &[52.0, 50.0, 48.0, 46.0])
    };
    for width in [280.0, 360.0, 900.0] {
        let scene = scene(&view, width);
        let triangle = scene.marks.iter().find_map(|mark| match mark {
            Mark::Fill { points, .. } if points.len() == 3 => Some(points),
            _ => None,
        });
        let heights = triangle.into_iter().flatten().map(|point| point.y);
        let [low, high] = heights.fold([0.0_f64, f64::INFINITY], |[low, high], y| {
            [low.max(y), high.min(y)]
        });
        let nearest = places(&view, width).points[0];
        assert!(nearest.y - RADIUS > low, "{width}: {nearest:?}, {low}");
        let mut names = scene.labels().map(Label::bounds);
        let name = names.find(|name| name.top < high && name.left < 30.0);
        assert!(
            name.is_some_and(|name| name.top + name.height <= high),
            "{width}: {name:?}, {high}"
        );
    }
}
