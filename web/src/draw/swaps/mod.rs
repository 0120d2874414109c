//! The graph of shifts as a picture: what drives stands over its ratio, on a logarithmic axis on which equal steps are equally wide, and single
//! swaps lead from one to another.
//!
//! Named ranges stand in rows of their own, as boxes with their names. Single swaps between them are arcs above,
//! double ones broken arcs below. All else that drives are small circles under them, those of one ratio in a block;
//! of these only single swaps are drawn. What is far beyond the named ranges stands at the edge, as a triangle that points there. What drives backwards has the same, underneath. Where each stands depends on the train and the width
//! alone: applying something moves nothing.

mod axis;
mod key;
mod marks;
mod packing;
mod plan;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;

use levertrain_core::swaps::{Graph, NodeReport};
use levertrain_core::{ElementSet, Train};
use serde::Serialize;

use self::plan::Plan;
use super::scene::Scene;

/// So many combinations are all shown without being asked for.
pub const FEW: usize = 40;
/// More are never drawn: nobody could tell them apart.
pub const MOST: usize = 600;

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// The train.
    pub train: &'a Train,
    /// All that drives in it.
    pub graph: &'a Graph,
    /// What is applied now.
    pub now: ElementSet,
    /// Whether everything is shown also where it is more than a few, if it can be.
    pub all: bool,
    /// The nodes of a chain that is marked, in its order.
    pub chain: &'a [usize],
    /// The least distance of two nodes, in CSS pixels: what a pointer or a finger needs.
    pub reach: f64,
}

/// Where a combination stands, to be pointed at.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SwapPlace"))]
pub struct Place {
    /// Which it is.
    pub node: NodeReport,
    /// Left edge in CSS pixels.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// The drawing as the page has to know it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "SwapPlaces"))]
pub struct Places {
    /// Its height in CSS pixels.
    pub height: f64,
    /// The combinations that are shown, in the order of their ratios.
    pub places: Vec<Place>,
    /// Whether not all are.
    pub some: bool,
    /// Whether all could be.
    pub can_be_all: bool,
}

impl View<'_> {
    /// The nodes that are shown, in their order: all, or the named ranges, what a single swap makes of them, and the chain.
    pub fn shown(&self) -> Vec<usize> {
        let nodes = self.graph.nodes();
        let every = 0..nodes.len();
        if nodes.len() <= FEW || (self.all && nodes.len() <= MOST) {
            return every.collect();
        }
        let mut shown = vec![false; nodes.len()];
        let mut count = 0;
        let is_named = |node: &usize| !nodes[*node].ranges.is_empty();
        let chain = self.chain.iter().copied();
        let wanted = every.clone().filter(is_named).chain(chain);
        let wanted = wanted.chain(self.graph.node_of(self.now));
        let around = every.clone().filter(is_named);
        let around = around.flat_map(|node| self.graph.singles(node));
        for node in wanted.chain(around) {
            if node < nodes.len() && !shown[node] && count < MOST {
                shown[node] = true;
                count += 1;
            }
        }
        every.filter(|&node| shown[node]).collect()
    }
}

/// Where everything stands at a width in CSS pixels.
pub fn places(view: &View<'_>, width: f64) -> Places {
    let plan = Plan::of(view, width);
    let (shown, all) = (plan.spots.len(), view.graph.nodes().len());
    let places = plan.spots.iter().map(|spot| {
        let area = spot.reach(view.reach);
        Place {
            node: NodeReport::of(view.train, view.graph, spot.node),
            left: area.left,
            top: area.top,
            width: area.width,
            height: area.height,
        }
    });
    Places {
        height: plan.height,
        places: places.collect(),
        some: shown < all,
        can_be_all: all <= MOST,
    }
}

/// Draws it.
pub fn scene(view: &View<'_>, width: f64) -> Scene {
    let plan = Plan::of(view, width);
    let mut scene = Scene::new(width, plan.height);
    plan.axis.draw(&mut scene, plan.grid());
    marks::draw(&mut scene, view, &plan);
    key::draw(&mut scene, view, &plan);
    scene
}
