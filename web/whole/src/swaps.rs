//! Shifts as swaps of elements, the ranges that a train could have, and the drawing of both.

use levertrain_core::swaps::{Bounds, ChainsReport, Graph, Search, ShiftsReport};
use levertrain_core::{ElementSet, Train};
use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::scene::Scene;
use levertrain_web::draw::swaps::{self, View};
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// The graph of the shifts of one train, found in pieces, and how it is drawn.
#[wasm_bindgen]
pub struct SwapGraph {
    search: Search,
    graph: Graph,
    all: bool,
    chain: Vec<usize>,
    reach: f64,
}

#[wasm_bindgen]
impl SwapGraph {
    /// Begins with the train in a text.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str) -> Result<SwapGraph, JsValue> {
        let search = Search::new(&Train::parse(text).map_err(problems)?);
        Ok(Self {
            graph: search.graph(),
            search,
            all: false,
            chain: Vec::new(),
            reach: 24.0,
        })
    }

    /// Looks at some more combinations; whether any are left. The graph is there when none are.
    pub fn advance(&mut self, combinations: u32) -> bool {
        let more = self.search.advance(combinations as usize);
        if !more {
            self.graph = self.search.graph();
        }
        more
    }

    /// Which part of them is known, from 0 to 1.
    pub fn progress(&self) -> f64 {
        let (done, all) = self.search.progress();
        done as f64 / all.max(1) as f64
    }

    /// The shifts between the named ranges.
    #[wasm_bindgen(unchecked_return_type = "Shifts")]
    pub fn shifts(&self) -> Result<JsValue, JsValue> {
        plain(&ShiftsReport::of(self.search.train(), &self.graph))
    }

    /// The best rows of at most so many ranges, the steps between them within these hundredths.
    #[wasm_bindgen(unchecked_return_type = "Chains")]
    pub fn chains(&self, least: u32, most: u32, ranges: u32) -> Result<JsValue, JsValue> {
        let bounds = Bounds::of_hundredths(least, most, ranges as usize);
        let train = self.search.train();
        plain(&ChainsReport::of(train, &self.graph, &bounds))
    }

    /// How it is drawn from now on: whether with all combinations, which chain is marked, by its nodes, and the
    /// least distance of two nodes in CSS pixels.
    pub fn show(&mut self, all: bool, chain: &[u32], reach: f64) {
        self.all = all;
        let nodes = chain.iter().map(|&node| node as usize);
        self.chain = nodes
            .filter(|&node| node < self.graph.nodes().len())
            .collect();
        self.reach = reach;
    }

    /// Where everything stands at a width in CSS pixels.
    #[wasm_bindgen(unchecked_return_type = "SwapPlaces")]
    pub fn places(&self, sandbox: &Sandbox, width: f64) -> Result<JsValue, JsValue> {
        plain(&swaps::places(
            &self.view(sandbox.session()?.applied()),
            width,
        ))
    }

    /// Draws it, as wide as the canvas.
    pub fn draw(&self, sandbox: &Sandbox, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(sandbox.session()?, canvas, |session, (width, _)| {
            Ok(self.scene(session.applied(), width))
        })
    }

    /// The drawing as the text of an SVG file, in `light` colours or those on screen.
    pub fn svg(&self, sandbox: &Sandbox, width: f64, light: bool) -> Result<String, JsValue> {
        let session = sandbox.session()?;
        let scene = self.scene(session.applied(), width);
        svg_of(session, light, &scene)
    }

    /// The same on a canvas whose backing store has the size of the drawing times `scale`.
    #[wasm_bindgen(js_name = drawPicture)]
    pub fn draw_picture(
        &self,
        sandbox: &Sandbox,
        canvas: HtmlCanvasElement,
        scale: f64,
        light: bool,
    ) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        paint_picture(session, canvas, (scale, light), |session, (width, _)| {
            Ok(self.scene(session.applied(), width))
        })
    }
}

impl SwapGraph {
    fn view(&self, now: ElementSet) -> View<'_> {
        View {
            train: self.search.train(),
            graph: &self.graph,
            now,
            all: self.all,
            chain: &self.chain,
            reach: self.reach,
        }
    }

    fn scene(&self, now: ElementSet, width: f64) -> Scene {
        swaps::scene(&self.view(now), width)
    }
}
