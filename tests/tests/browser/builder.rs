//! Hands that change a train in the drawing: with a pointer, or with the keys alone.

use anyhow::{Result, bail, ensure};
use levertrain_tests::browser::{Device, Key, Page};
use serde_json::{Value, json};

/// A scenario of two sets of different kinds, with clutches and brakes.
pub const MODEL: &str = "09-six-speed-front-set";

/// The middle of something that can be taken hold of, brought into sight, and of what lies there whether it is that.
const PLACE: &str = "(() => { \
    const node = probe.one(`.grip[data-key=\"${args}\"]`); \
    const box = node.querySelector('.grip-face').getBoundingClientRect(); \
    return [box.x + box.width / 2, box.y + box.height / 2]; \
})()";

/// The key of what has the focus.
const FOCUS: &str = "probe.host('lever-train').shadowRoot.activeElement?.dataset.key ?? ''";

/// By what a train is built.
#[derive(Clone, Copy)]
pub enum By {
    /// A pointer.
    Pointer(Device),
    /// The keys alone.
    Keys,
}

pub struct Builder<'a> {
    /// The page.
    pub page: &'a Page,
    /// By what.
    pub by: By,
}

impl Builder<'_> {
    /// Where a thing in the drawing is.
    pub fn place(&self, key: &str) -> Result<(f64, f64)> {
        self.page.rest()?;
        let place: [f64; 2] = self.page.get(PLACE, json!(key))?;
        Ok(place.into())
    }

    /// Goes to a thing in the drawing by arrow keys, from the one stop of the tabulator.
    fn go_to(&self, key: &str) -> Result<()> {
        self.page.rest()?;
        self.page
            .run("probe.one('.grip[tabindex=\"0\"]').focus()", Value::Null)?;
        for _ in 0..40 {
            let at: String = self.page.get(FOCUS, Value::Null)?;
            if at == key {
                return Ok(());
            }
            self.page.keys([Key::Right])?;
        }
        bail!("no arrow leads to {key}")
    }

    /// Presses a thing in the drawing.
    pub fn press(&self, key: &str) -> Result<()> {
        match self.by {
            By::Pointer(device) => self.page.gesture(device, &[self.place(key)?]),
            By::Keys => {
                self.go_to(key)?;
                self.page.keys([Key::Enter])
            }
        }
    }

    /// Presses a button of the strip.
    pub fn tool(&self, key: &str) -> Result<()> {
        let selector = format!(".strip button[data-key=\"{key}\"]");
        self.button(&selector)
    }

    pub fn button(&self, selector: &str) -> Result<()> {
        self.page.until(
            &format!("there is {selector}"),
            &format!("probe.all('{selector}').length === 1"),
        )?;
        self.page.run(
            "probe.one(args).scrollIntoView({ block: 'center', behavior: 'instant' })",
            json!(selector),
        )?;
        match self.by {
            By::Pointer(device) => {
                let middle = "(() => { const box = probe.one(args).getBoundingClientRect(); \
                    return [box.x + box.width / 2, box.y + box.height / 2]; })()";
                // What it belongs to may be on its way to another place.
                self.page.rest()?;
                let place: [f64; 2] = self.page.get(middle, json!(selector))?;
                self.page.gesture(device, &[place.into()])?;
            }
            By::Keys => {
                self.page.run("probe.one(args).focus()", json!(selector))?;
                self.page.keys([Key::Enter])?;
            }
        }
        self.page
            .run("scrollTo({ top: 0, behavior: 'instant' })", Value::Null)
    }

    /// Joins two things, by a line or by the button for it.
    pub fn join(&self, from: &str, to: &str) -> Result<()> {
        let By::Pointer(device) = self.by else {
            self.press(from)?;
            self.tool("join")?;
            return self.press(to);
        };
        let (start, end) = (self.place(from)?, self.place(to)?);
        let way = (0..=6).map(|step| f64::from(step) / 6.0);
        let way = way.map(|share| {
            (
                start.0 + (end.0 - start.0) * share,
                start.1 + (end.1 - start.1) * share,
            )
        });
        self.page.gesture(device, &way.collect::<Vec<_>>())
    }

    /// Joins two things and says how. With the keys one is then where one was before.
    pub fn put(&self, from: &str, to: &str, how: &str) -> Result<()> {
        self.join(from, to)?;
        self.tool(how)?;
        if let By::Keys = self.by {
            let focus: String = self.page.get(FOCUS, Value::Null)?;
            ensure!(focus == from, "{focus} has the focus, not {from}");
        }
        Ok(())
    }

    /// Types a number of the strip of a member.
    pub fn count(&self, member: &str, field: &str, count: u32) -> Result<()> {
        self.press(member)?;
        let selector = format!(".strip input[data-key=\"{field}\"]");
        self.page.run(
            "(() => { const node = probe.one(args); node.focus(); node.select(); })()",
            json!(selector),
        )?;
        let digits = count.to_string();
        self.page.keys(digits.chars())?;
        self.page.keys([Key::Escape])
    }

    /// Applies exactly these elements by their strips.
    pub fn apply(&self, ids: &[String]) -> Result<()> {
        let applied = self.page.seen()?.applied;
        let over = applied.iter().filter(|id| !ids.contains(id));
        for id in over.chain(ids.iter().filter(|id| !applied.contains(id))) {
            self.press(&format!("element {id}"))?;
            self.tool("apply")?;
            self.tool("close")?;
        }
        Ok(())
    }
}
