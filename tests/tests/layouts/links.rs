//! How many forward speeds a Ravigneaux mechanism can have: of seven links at most four, of eight six, of nine eight (E. L.
//! Esmail, Advances in Mechanical Engineering 2013, article 120324, abstract; how these are counted is ours).
//!
//! The links counted here: the central gears, which are two suns and a ring with one or two further suns or rings on the same
//! pinions, the carrier, short and long pinions, and the housing. A further gear turns as in a plain set that has carrier and
//! one central gear in common. The rules: a clutch joins the input to any central gear or the carrier but the output, a brake
//! holds any but that; two elements are applied at a time; ratios fall from range to range, each a single swap from the one
//! before. All members stand on one lever. Which of two ratios a swap apart is larger depends on the order of the members there
//! and on which is the output, and on nothing else, so that one train with all members in different places, with each of
//! them as the output in turn, stands for all.

use levertrain_core::swaps::Graph;
use levertrain_tests::sketch::Sketch;

/// The mechanism with these members but for its elements, and with an output.
fn mechanism(members: &[&str], output: &str) -> Sketch {
    let mut sketch = Sketch::new("in", output).ravigneaux(
        "p",
        [("small", 27), ("large", 33)],
        ("ring", 81),
        "carrier",
        (21, 24),
    );
    if members.contains(&"third") {
        sketch = sketch.planetary("q", ("third", 42), ("ring", 81), "carrier", 19);
    }
    if members.contains(&"outer") {
        sketch = sketch.planetary("r", ("large", 33), ("outer", 93), "carrier", 30);
    }
    for member in members.iter().filter(|member| **member != output) {
        sketch = sketch.clutch(&format!("c-{member}"), "in", member);
        sketch = sketch.brake(&format!("b-{member}"), member);
    }
    sketch
}

/// How many ranges the longest row of forward ranges has.
fn most_ranges(members: &[&str], output: &str) -> usize {
    let graph = Graph::of_train(&mechanism(members, output).train());
    let nodes = graph.nodes();
    let counts = |at: &usize| nodes[*at].is_forward() && nodes[*at].applied.iter().count() == 2;
    let mut order: Vec<usize> = (0..nodes.len()).filter(counts).collect();
    order.sort_by(|&a, &b| nodes[b].ratio.cmp(&nodes[a].ratio));
    let mut rows = vec![0; nodes.len()];
    for &at in &order {
        let before = graph
            .singles(at)
            .into_iter()
            .filter(|&other| nodes[other].ratio > nodes[at].ratio);
        rows[at] = 1 + before.map(|other| rows[other]).max().unwrap_or(0);
    }
    rows.into_iter().max().unwrap_or(0)
}

#[test]
fn more_links_have_as_many_forward_ranges_as_published_and_no_more() {
    let members = ["small", "large", "ring", "carrier", "third", "outer"];
    for (count, expected) in [(4, 4), (5, 6), (6, 8)] {
        let members = &members[..count];
        let most = members
            .iter()
            .map(|output| most_ranges(members, output))
            .max();
        // Beside the members there are two kinds of pinions and the housing.
        assert_eq!(most, Some(expected), "of {} links", count + 3);
    }
}
