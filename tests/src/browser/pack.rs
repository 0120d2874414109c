//! Where a plate pack is on screen, worked out from the drawing's own geometry.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_web::draw::section::Layout;
use serde_json::json;

use super::input::Device;
use super::page::Page;

/// A plate pack in the half-section on screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    /// Id of its element.
    pub id: String,
    /// Its middle, in CSS pixels of the window.
    pub centre: (f64, f64),
    /// How far it moves from open to closed, in CSS pixels.
    pub travel: f64,
    /// The direction in which a movement closes it.
    pub closes: (f64, f64),
    /// Whether the opposite direction closes it too.
    pub both_ways: bool,
}

impl Pack {
    /// Points from its middle to `share` of its way towards closed; a negative share opens.
    pub fn way(&self, share: f64, steps: usize) -> Vec<(f64, f64)> {
        (0..=steps)
            .map(|step| self.point(share * step as f64 / steps as f64))
            .collect()
    }

    /// The point at `share` of its way towards closed, from its middle.
    pub fn point(&self, share: f64) -> (f64, f64) {
        let along = share * self.travel;
        let (x, y) = self.centre;
        (x + along * self.closes.0, y + along * self.closes.1)
    }
}

impl Page {
    /// Where the pack of an element is; it is brought into sight first.
    ///
    /// # Errors
    /// The train has no such element, or its switch is not over its pack.
    pub fn pack(&self, train: &Train, id: &str) -> Result<Pack> {
        let script = "(() => { \
            const node = probe.one(`[role=\"switch\"][data-element-id=\"${args}\"]`); \
            node.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' }); \
            const box = node.getBoundingClientRect(); \
            const section = probe.one('canvas[data-drawing=section]').getBoundingClientRect(); \
            const stage = probe.one('[data-part=stage]'); \
            return [box.x, box.y, box.width, box.height, section.x, section.y, stage.clientWidth, \
                Number(stage.dataset.zoom)]; \
        })()";
        let [x, y, width, height, left, top, available, zoom]: [f64; 8] =
            self.get(script, json!(id))?;
        let layout = Layout::of(train);
        let handles = layout.stage(available / zoom).handles(train);
        let handle = handles
            .into_iter()
            .find(|handle| handle.id == id)
            .with_context(|| format!("the drawing has no pack of {id}"))?;
        let centre = (
            left + (handle.left + handle.width / 2.0) * zoom,
            top + (handle.top + handle.height / 2.0) * zoom,
        );
        let over = (x..=x + width).contains(&centre.0) && (y..=y + height).contains(&centre.1);
        ensure!(over, "the switch of {id} is not over its pack");
        Ok(Pack {
            id: id.to_owned(),
            centre,
            travel: handle.travel * zoom,
            closes: handle.closes,
            both_ways: handle.both_ways,
        })
    }

    /// Drags a pack by `share` of its way towards closed, and lets go.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn drag(&self, device: Device, pack: &Pack, share: f64) -> Result<()> {
        const STEPS: usize = 8;
        self.gesture(device, &pack.way(share, STEPS))
    }
}
