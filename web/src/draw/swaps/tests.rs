use levertrain_core::swaps::{Chains, Graph, Kind, Shift};
use levertrain_core::words::word;
use levertrain_core::{ElementSet, Train};

use super::marks::{ALONG, DOUBLE, FROM_HERE, SINGLE};
use super::{FEW, Places, View, places, scene};
use crate::draw::scene::{Bounds, Mark, Scene, Stroke};
use crate::draw::tests::{again_in_german, scenarios};

const WIDTHS: [f64; 4] = [300.0, 350.0, 640.0, 1200.0];
const REACHES: [f64; 2] = [24.0, 44.0];

fn trains() -> Vec<(String, Train, Graph)> {
    let read = |(name, text): (String, String)| {
        let train = Train::parse(&text).unwrap();
        let graph = Graph::of_train(&train);
        (name, train, graph)
    };
    scenarios().into_iter().map(read).collect()
}

fn view<'a>(train: &'a Train, graph: &'a Graph) -> View<'a> {
    View {
        train,
        graph,
        now: ElementSet::NONE,
        all: false,
        chain: &[],
        reach: 24.0,
    }
}

/// Each scenario in some widths, for a pointer and for a finger, in part and whole, with a chain marked.
fn each_view(check: impl Fn(&str, &View<'_>, f64)) {
    for (name, train, graph) in trains() {
        let chains = Chains::best(&graph, &levertrain_core::swaps::Bounds::default()).chains;
        let chain = chains.first().map_or(&[][..], |chain| &chain.nodes);
        for width in WIDTHS {
            for reach in REACHES {
                for all in [false, true] {
                    let now = graph.nodes()[0].applied;
                    let plain = view(&train, &graph);
                    let own = View {
                        now,
                        all,
                        chain,
                        reach,
                        ..plain
                    };
                    check(
                        &format!("{name}, {width} wide, reach {reach}, all {all}"),
                        &own,
                        width,
                    );
                }
            }
        }
    }
}

fn areas(places: &Places) -> Vec<Bounds> {
    let area = |place: &super::Place| Bounds {
        left: place.left,
        top: place.top,
        width: place.width,
        height: place.height,
    };
    places.places.iter().map(area).collect()
}

fn nothing_overlaps() {
    each_view(|name, view, width| {
        let scene = scene(view, width);
        let labels: Vec<_> = scene.labels().collect();
        for (index, label) in labels.iter().enumerate() {
            let bounds = label.bounds();
            let inside = bounds.left >= 0.0
                && bounds.left + bounds.width <= scene.width
                && bounds.top >= 0.0
                && bounds.top + bounds.height <= scene.height;
            assert!(inside, "{name}: {} leaves the picture", label.text);
            for other in &labels[index + 1..] {
                assert!(
                    !bounds.overlaps(&other.bounds()),
                    "{name}: {} and {}",
                    label.text,
                    other.text
                );
            }
        }
        let areas = areas(&places(view, width));
        for (index, area) in areas.iter().enumerate() {
            let inside = area.left >= 0.0
                && area.left + area.width <= width
                && area.top >= 0.0
                && area.top + area.height <= scene.height;
            assert!(inside, "{name}: {area:?}");
            assert!(
                area.width.min(area.height) >= view.reach,
                "{name}: {area:?} is too small"
            );
            for other in &areas[index + 1..] {
                assert!(
                    !smaller(area).overlaps(other),
                    "{name}: {area:?} and {other:?}"
                );
            }
        }
    });
}

fn every_line_stays_in_the_picture() {
    each_view(|name, view, width| {
        let scene = scene(view, width);
        for mark in &scene.marks {
            let Mark::Path { points, .. } = mark else {
                continue;
            };
            for point in points {
                let inside = (0.0..=scene.width).contains(&point.x)
                    && (0.0..=scene.height).contains(&point.y);
                assert!(
                    inside,
                    "{name}: {point:?} of {} by {}",
                    scene.width, scene.height
                );
            }
        }
    });
}

#[test]
fn labels_and_places_keep_apart_and_inside() {
    nothing_overlaps();
    every_line_stays_in_the_picture();
    again_in_german(&[nothing_overlaps, every_line_stays_in_the_picture]);
}

/// Where a ratio stands: a name where it is, circles with the middle of their block.
fn middles(found: &Places) -> Vec<(String, f64, f64)> {
    let key = |place: &super::Place| {
        let named = !place.node.labels.is_empty();
        format!("{named} {}", place.node.ratio.fraction)
    };
    let mut middles: Vec<(String, f64, f64)> = Vec::new();
    for place in &found.places {
        if middles.iter().any(|(known, ..)| *known == key(place)) {
            continue;
        }
        let alike = found.places.iter().filter(|other| key(other) == key(place));
        let (left, right) = alike.fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(left, right), other| (left.min(other.left), right.max(other.left + other.width)),
        );
        middles.push((key(place), place.node.ratio.decimal, (left + right) / 2.0));
    }
    middles
}

#[test]
fn larger_ratios_stand_further_left_and_equal_ones_alike() {
    let mut seen = 0;
    each_view(|name, view, width| {
        if width < 1000.0 {
            // There a block may not find room about its middle.
            return;
        }
        let middles = middles(&places(view, width));
        for (index, (key, one, x)) in middles.iter().enumerate() {
            for (other_key, other, right) in &middles[index + 1..] {
                let (one, other) = (one.abs(), other.abs());
                let order = if (x - right).abs() < 1.0 {
                    0.0
                } else {
                    (right - x).signum()
                };
                // Beyond the axis others stand at its end, too.
                let fits = order == 0.0 || (one - other).signum() == order;
                assert!(fits, "{name}: {key} at {x}, {other_key} at {right}");
                assert!(
                    one != other || order == 0.0,
                    "{name}: {key} at {x}, {other_key} at {right}"
                );
            }
        }
    });
    for (_, train, graph) in trains() {
        let all = middles(&places(&view(&train, &graph), 1200.0));
        seen += all.len();
    }
    assert!(seen > 50, "{seen}");
}

#[test]
fn equal_steps_are_equally_wide() {
    let (_, train, graph) = trains().swap_remove(4);
    let found = places(&view(&train, &graph), 900.0);
    let named: Vec<(f64, f64)> = found
        .places
        .iter()
        .filter(|place| !place.node.labels.is_empty())
        .map(|place| {
            let log = place.node.ratio.decimal.abs().ln();
            (log, place.left + place.width / 2.0)
        })
        .collect();
    assert_eq!(named.len(), 9);
    let (first, last) = (named[0], named[7]);
    let slope = (last.1 - first.1) / (last.0 - first.0);
    for (log, x) in named {
        assert!(
            (first.1 + slope * (log - first.0) - x).abs() < 1e-6,
            "{log} at {x}"
        );
    }
    // The reverse without a name has about three times the ratio of first.
    let scene = scene(&view(&train, &graph), 900.0);
    let beyond = word("diagram-swaps-beyond");
    assert!(scene.labels().any(|label| label.text == beyond));
}

fn strokes(scene: &Scene, wanted: Stroke) -> usize {
    let is_one = |mark: &&Mark| matches!(mark, Mark::Path { stroke, .. } if *stroke == wanted);
    // One of them is that of the key.
    scene.marks.iter().filter(is_one).count() - 1
}

#[test]
fn lines_are_the_swaps() {
    for (name, train, graph) in trains() {
        assert!(
            graph.nodes().len() <= FEW || name.starts_with("01"),
            "{name}: {}",
            graph.nodes().len()
        );
        for (now, node) in graph.nodes().iter().enumerate() {
            let own = View {
                now: node.applied,
                all: true,
                ..view(&train, &graph)
            };
            let scene = scene(&own, 800.0);
            assert_eq!(
                strokes(&scene, FROM_HERE),
                graph.singles(now).len(),
                "{name}: node {now}"
            );
        }
        let scene = scene(&view(&train, &graph), 800.0);
        let shifts = Shift::all(&graph);
        let ratio = |range: usize| {
            let node = graph.node_of(train.range(range)).unwrap();
            graph.nodes()[node].ratio.signum()
        };
        let once = || shifts.iter().filter(|shift| shift.from < shift.to);
        let doubles = once().filter(|shift| shift.swap.kind() == Kind::Double);
        let doubles = doubles
            .filter(|shift| ratio(shift.from) == ratio(shift.to))
            .count();
        assert_eq!(strokes(&scene, DOUBLE), doubles, "{name}");
        let singles = once().filter(|shift| shift.swap.kind().is_single()).count();
        assert_eq!(strokes(&scene, SINGLE), singles, "{name}");
    }
}

#[test]
fn applying_something_moves_nothing_and_a_chain_is_marked() {
    let (_, train, graph) = trains().swap_remove(4);
    let still = places(&view(&train, &graph), 700.0);
    for node in graph.nodes() {
        let own = View {
            now: node.applied,
            ..view(&train, &graph)
        };
        assert_eq!(places(&own, 700.0), still);
    }
    let chain: Vec<usize> = (0..3).collect();
    let own = View {
        chain: &chain,
        ..view(&train, &graph)
    };
    assert_eq!(strokes(&scene(&own, 700.0), ALONG), 2);
}

/// The eight-speed with four more clutches, so that more drive than can be told apart at once.
fn many() -> (Train, Graph) {
    let (_, text) = scenarios().swap_remove(4);
    let more: String = [("s1", "c2"), ("in", "c3"), ("c3", "out"), ("s1", "c4")]
        .iter()
        .enumerate()
        .map(|(number, (one, other))| {
            format!("{{\"kind\": \"clutch\", \"id\": \"L{number}\", \"label\": \"L{number}\", \"between\": [\"{one}\", \"{other}\"]}},")
        })
        .collect();
    let text = text.replacen("\"elements\": [", &format!("\"elements\": [{more}"), 1);
    let train = Train::parse(&text).unwrap();
    let graph = Graph::of_train(&train);
    (train, graph)
}

#[test]
fn of_many_only_some_are_shown_until_all_are_wanted() {
    let (train, graph) = many();
    let plain = view(&train, &graph);
    let some = places(&plain, 700.0);
    assert!(some.some && some.can_be_all, "{}", graph.nodes().len());
    let shown = |node: usize| some.places.iter().any(|place| place.node.node == node);
    for (node, known) in graph.nodes().iter().enumerate() {
        let near = graph.singles(node);
        let near = near
            .iter()
            .any(|&other| !graph.nodes()[other].ranges.is_empty());
        assert_eq!(shown(node), near || !known.ranges.is_empty(), "node {node}");
    }
    // What is applied, or on the chain, is there as well.
    let hidden = (0..graph.nodes().len()).find(|&node| !shown(node)).unwrap();
    let now = graph.nodes()[hidden].applied;
    for own in [
        View { now, ..plain },
        View {
            chain: &[hidden],
            ..plain
        },
    ] {
        let places = places(&own, 700.0);
        assert!(places.places.iter().any(|place| place.node.node == hidden));
    }
    let every = places(&View { all: true, ..plain }, 700.0);
    assert_eq!(every.places.len(), graph.nodes().len());
    assert!(!every.some);
}

/// Rounding may put two that touch a hair over each other.
const HAIR: f64 = 1e-6;

fn smaller(area: &Bounds) -> Bounds {
    Bounds {
        left: area.left + HAIR,
        top: area.top + HAIR,
        width: area.width - 2.0 * HAIR,
        height: area.height - 2.0 * HAIR,
    }
}
