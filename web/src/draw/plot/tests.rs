//! What a plot shows, read from its scene.

use super::*;
use crate::draw::scene::Mark;

fn plot() -> Plot {
    let curve = |name: &str, by: f64| Curve {
        name: name.to_owned(),
        points: (0..=20)
            .map(|x| [f64::from(x), f64::from(x) * by])
            .collect(),
    };
    Plot {
        across: "ratio".to_owned(),
        up: "share".to_owned(),
        curves: vec![
            curve("Engine", 0.05),
            curve("Motor 1", -0.08),
            curve("Motor 2", 0.1),
        ],
        marks: vec![
            (5.0, "Motor 1 stands still".to_owned()),
            (5.5, "Motor 2 stands still".to_owned()),
        ],
        now: Some(([10.0, 0.5], "Now".to_owned())),
        limits: Some([-1.5, 1.5]),
        ..Plot::default()
    }
}

#[test]
fn nothing_is_lettered_over_another_or_beyond_the_edge() {
    for width in [300.0, 360.0, 700.0, 1200.0] {
        let scene = scene(&plot(), width);
        let bounds: Vec<Bounds> = scene.labels().map(Label::bounds).collect();
        for (at, one) in bounds.iter().enumerate() {
            assert!(
                one.left >= -0.5 && one.left + one.width <= width + 0.5,
                "{one:?} in {width}"
            );
            assert!(one.top >= -0.5 && one.top + one.height <= scene.height + 0.5);
            let others = &bounds[at + 1..];
            assert!(
                others.iter().all(|other| !one.overlaps(other)),
                "{one:?} in {width}"
            );
        }
    }
}

#[test]
fn curves_differ_in_more_than_colour_and_break_beyond_the_limits() {
    let mut plot = plot();
    let looks: Vec<Stroke> = (0..8).map(look).collect();
    for (at, one) in looks.iter().enumerate() {
        assert!(!looks[at + 1..].contains(one), "{one:?}");
    }
    let longest = |plot: &Plot| {
        let marks = scene(plot, 600.0).marks;
        let lines = marks.into_iter().filter_map(|mark| match mark {
            Mark::Path { points, stroke } if stroke == look(0) => Some(points.len()),
            _ => None,
        });
        lines.max().unwrap_or_default()
    };
    assert_eq!(longest(&plot), 21);
    plot.curves[0].points[10][1] = 40.0;
    assert_eq!(longest(&plot), 10);
}

#[test]
fn an_area_is_filled_between_its_edges() {
    let plot = Plot {
        area: vec![[0.0, -10.0, 10.0], [100.0, -10.0, 30.0], [200.0, -5.0, 5.0]],
        area_name: "Allowed".to_owned(),
        ..Plot::default()
    };
    let marks = scene(&plot, 500.0).marks;
    let filled = marks.iter().find_map(|mark| match mark {
        Mark::Fill {
            points,
            ink: Ink::Power,
        } => Some(points.len()),
        _ => None,
    });
    assert_eq!(filled, Some(6));
}
