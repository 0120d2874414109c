//! The graph of shifts against NetworkX, over combinations that SymPy has solved (`tests/oracle/shifts.py`).

use std::collections::VecDeque;

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::swaps::{Bounds, Chains, Graph, Kind};
use levertrain_core::{ElementSet, Train};
use levertrain_tests::cases;
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    scenario: Value,
    nodes: Vec<Node>,
    /// How many single swaps lead from one node to another at least, where some do.
    swaps: Vec<Vec<Option<usize>>>,
    /// How many ranges the longest row has.
    row: usize,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Node {
    applied: Vec<String>,
    ratio: String,
}

/// How many single swaps lead from one node to each, by breadth-first search.
fn swaps_from(graph: &Graph, start: usize) -> Vec<Option<usize>> {
    let mut away = vec![None; graph.nodes().len()];
    let mut queue = VecDeque::from([(start, 0)]);
    while let Some((node, swaps)) = queue.pop_front() {
        if away[node].is_none() {
            away[node] = Some(swaps);
            queue.extend(
                graph
                    .singles(node)
                    .into_iter()
                    .map(|next| (next, swaps + 1)),
            );
        }
    }
    away
}

fn applied(train: &Train, ids: &[String]) -> Result<ElementSet> {
    let elements = &train.scenario().elements;
    let place = |id: &String| elements.iter().position(|element| element.id() == id);
    ids.iter()
        .map(|id| place(id).context("no such element"))
        .collect()
}

/// Compares one case, and returns how many swaps of each kind were compared: alone, single, double, more.
fn check(case: &Case) -> Result<[usize; 4]> {
    let train =
        Train::parse(&case.scenario.to_string()).map_err(|faults| anyhow!("{faults:#?}"))?;
    let graph = Graph::of_train(&train);
    ensure!(
        graph.nodes().len() == case.nodes.len(),
        "{} nodes",
        graph.nodes().len()
    );
    let mut places = Vec::new();
    for node in &case.nodes {
        let place = graph.node_of(applied(&train, &node.applied)?);
        let place = place.with_context(|| format!("{:?} is no node", node.applied))?;
        let ratio = graph.nodes()[place].ratio.to_string();
        ensure!(
            ratio == node.ratio,
            "{:?}: {ratio}, not {}",
            node.applied,
            node.ratio
        );
        places.push(place);
    }
    let mut counts = [0; 4];
    for (from, expected) in places.iter().zip(&case.swaps) {
        let away = swaps_from(&graph, *from);
        for (to, expected) in places.iter().zip(expected) {
            ensure!(
                away[*to] == *expected,
                "{from} to {to}: {:?} swaps, not {expected:?}",
                away[*to]
            );
            let kind = graph.swap(*from, *to).kind();
            let single = matches!(kind, Kind::Alone | Kind::Single);
            ensure!(single == (*expected == Some(1)), "{from} to {to}: {kind:?}");
            match kind {
                Kind::Same => ensure!(from == to, "{from} to {to} is nothing"),
                Kind::Alone => counts[0] += 1,
                Kind::Single => counts[1] += 1,
                Kind::Double => counts[2] += 1,
                Kind::More => counts[3] += 1,
            }
        }
    }
    let found = Chains::best(
        &graph,
        &Bounds::of_hundredths(110, 300, Bounds::MOST_RANGES),
    );
    ensure!(found.is_complete, "the rows are not complete");
    let row = found.chains.first().map_or(1, |chain| chain.nodes.len());
    ensure!(row == case.row.max(1), "{row} ranges, not {}", case.row);
    Ok(counts)
}

#[test]
fn nodes_swaps_and_the_longest_row_are_those_of_networkx() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("shifts.json")? else {
        return Ok(());
    };
    let mut counts = [0; 4];
    for case in &cases {
        let found = check(case).with_context(|| case.name.clone())?;
        for (all, found) in counts.iter_mut().zip(found) {
            *all += found;
        }
    }
    let [alone, single, double, more] = counts;
    ensure!(
        alone > 100 && single > 1000 && double > 100 && more > 0,
        "too few of a kind to compare: {counts:?}"
    );
    let rows = cases.iter().filter(|case| case.row > 2).count();
    ensure!(rows > 10, "{rows} rows of three ranges and more");
    Ok(())
}
