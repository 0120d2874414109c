use super::{View, places, scene};
use crate::draw::scene::{Ink, Mark, Stroke};
use crate::draw::tests::again_in_german;

const WIDTHS: [f64; 4] = [280.0, 350.0, 500.0, 900.0];

/// A view whose marks are of all four kinds, and one of which nothing is known.
fn view() -> View {
    let times = |from: f64| (0..32).map(|step| from + f64::from(step) * 0.016).collect();
    let value = |index: usize| match index % 5 {
        0 => [0.0, 0.0, 10.0],
        1 => [3.0, 0.0, 20.0],
        2 => [0.0, 4.0, 40.0],
        3 => [1.0, 1.0, 1.0],
        _ => [f64::NAN; 3],
    };
    View {
        releases: times(0.05),
        applies: times(0.0),
        values: (0..32 * 32).map(value).collect(),
        slight: [0.5, 0.5],
        now: [12, 6],
    }
}

fn nothing_overlaps() {
    for width in WIDTHS {
        let scene = scene(&view(), width);
        let labels: Vec<_> = scene
            .labels()
            .map(|label| (label.bounds(), &label.text))
            .collect();
        for (at, (bounds, text)) in labels.iter().enumerate() {
            assert!(
                bounds.left >= 0.0
                    && bounds.left + bounds.width <= width
                    && bounds.top >= 0.0
                    && bounds.top + bounds.height <= scene.height,
                "{width}: {text} leaves it"
            );
            for (other, other_text) in &labels[at + 1..] {
                assert!(!bounds.overlaps(other), "{width}: {text} and {other_text}");
            }
        }
    }
}

/// Catches labels over each other or outside, in both languages.
#[test]
fn labels_keep_apart_and_inside() {
    nothing_overlaps();
    again_in_german(&[nothing_overlaps]);
}

/// Catches a mark that tells another kind of timing, and one where nothing is known.
#[test]
fn marks_tell_by_their_shape_what_comes_of_a_timing() {
    let view = view();
    let scene = scene(&view, 500.0);
    let key = 1;
    let discs = |wanted: Ink| {
        let is_wanted = |mark: &&Mark| matches!(mark, Mark::Disc { ink, .. } if *ink == wanted);
        scene.marks.iter().filter(is_wanted).count() - key
    };
    let cross = Stroke::solid(Ink::Fight, 1.25);
    let crosses = scene
        .marks
        .iter()
        .filter(|mark| matches!(mark, Mark::Path { stroke, .. } if *stroke == cross));
    let count = |wanted: fn(&[f64; 3]) -> bool| view.values.iter().filter(|x| wanted(x)).count();
    assert_eq!(discs(Ink::Text), count(|x| x[0] == 0.0 && x[1] == 0.0));
    assert_eq!(discs(Ink::Fight), count(|x| x[0] > 0.0));
    assert_eq!(crosses.count() / 2 - key, count(|x| x[1] > 0.0));
}

/// Catches marks that are as large whatever is made heat, and a place of a mark that is not where it is drawn.
#[test]
fn marks_grow_with_heat_and_stand_in_their_cells() {
    let mut view = view();
    view.values = vec![[0.0, 0.0, 10.0]; 32 * 32];
    view.values[32 * 3 + 5] = [0.0, 0.0, 40.0];
    let places = places(&view, 500.0);
    let scene = scene(&view, 500.0);
    let all = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Disc {
            centre,
            radius,
            ink: Ink::Text,
        } => Some((*centre, *radius)),
        _ => None,
    });
    let discs: Vec<_> = all.take(32 * 32).collect();
    let largest = discs.iter().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    // Half as large as what is made four times as much heat.
    assert!((discs[0].1 * 2.0 - largest.1).abs() < 1e-9);
    let column = ((largest.0.x - places.left) / places.cell).floor();
    let row = 31.0 - ((largest.0.y - places.top) / places.cell).floor();
    assert_eq!([column, row], [5.0, 3.0]);
}
