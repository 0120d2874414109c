//! What somebody could misread in a diagram in which all is named.

use super::arranging::unnamed;
use super::geometry::{Diagram, Node};
use super::labels::{self, Placed, Subject};
use super::marks::{self, Look};
use super::naming::gap;
use super::placing::length_inside;
use crate::draw::scene::{Bounds, Label};

/// What a class could misread: shafts without a name, labels that are nearer to another node than to their own, and
/// lines to labels that run through a node or a word.
pub(super) fn unclear(diagram: &Diagram<'_>) -> Vec<String> {
    let square = |node: &Node| marks::square(node.at, Look::of(node).reach(node.radius));
    let nodes: Vec<Bounds> = diagram.nodes().map(square).collect();
    let (others, places) = labels::places(diagram);
    let (subjects, all): (Vec<Subject>, Vec<Option<Placed>>) = places.unzip();
    let train = diagram.live.train;
    let mut unclear: Vec<String> = unnamed(&subjects, &all)
        .into_iter()
        .map(|body| format!("{} has no name", train.body_label(body)))
        .collect();
    let said = all.iter().flatten().map(|placed| placed.spot.area);
    let words: Vec<Bounds> = said.chain(others.iter().map(Label::bounds)).collect();
    for (subject, placed) in subjects.iter().zip(&all) {
        let Some(Placed { spot, saying, .. }) = placed else {
            unclear.push(format!("nothing is said of {:?}", subject.bodies));
            continue;
        };
        let lines = subject.sayings[*saying].lines.iter();
        let text: Vec<&str> = lines.map(|line| line.text.as_str()).collect();
        let is_own = |node: &&Bounds| (node.middle().x - subject.centre.x).abs() < 0.5;
        let own_node = nodes.iter().find(is_own);
        let own = nodes
            .iter()
            .find(is_own)
            .map_or(0.0, |own| gap(own, &spot.area));
        let mut foreign = nodes.iter().filter(|node| !is_own(node));
        match spot.leader {
            None if foreign.any(|node| gap(node, &spot.area) < own - 0.1) => {
                unclear.push(format!("{text:?} is nearer to another node"));
            }
            Some([from, to]) => {
                // A node that reaches into its own is in the way of every line.
                let beside = foreign.filter(|node| own_node.is_none_or(|own| gap(own, node) > 2.0));
                let mut on_way = beside.chain(words.iter().filter(|words| **words != spot.area));
                if on_way.any(|thing| length_inside(from, to, *thing) > 1.0) {
                    unclear.push(format!("the line to {text:?} runs through something"));
                }
            }
            None => {}
        }
    }
    unclear
}
