//! Going through a sheet of exercises as a learner does.

use anyhow::Result;
use levertrain_tests::browser::Page;
use serde_json::{Value, json};

/// A learner at an element of a page.
#[derive(Clone, Copy)]
pub struct Learner<'a> {
    page: &'a Page,
    host: &'a str,
}

impl<'a> Learner<'a> {
    pub const fn at(page: &'a Page, host: &'a str) -> Self {
        Self { page, host }
    }

    /// Waits until a question is asked.
    pub fn asked(self) -> Result<()> {
        let asked = format!("probe.one('.exercise-asked', '{}')", self.host);
        self.page.until("a question is asked", &asked)
    }

    /// Goes on from every range that is walked through first, and waits until a question is asked.
    pub fn walk_through(self) -> Result<()> {
        self.walks()?;
        let on = format!("probe.one('[data-part=walk-first-next]', '{}')", self.host);
        let walks = format!("!probe.one('.walk-first', '{}').hidden", self.host);
        while self.page.get(&walks, Value::Null)? {
            self.page.run(&format!("{on}.click()"), Value::Null)?;
        }
        self.asked()
    }

    /// Waits until a range is walked through.
    pub fn walks(self) -> Result<()> {
        let steps = format!(
            "probe.one('.walk-first:not([hidden]) [data-part=walk-steps] li', '{}')",
            self.host
        );
        self.page.until("a range is walked through", &steps)
    }

    /// Presses a button of the exercises.
    pub fn press(self, part: &str) -> Result<()> {
        self.page.run(
            "probe.one(`[data-part=exercise-${args[0]}]`, args[1]).click()",
            json!([part, self.host]),
        )
    }

    /// Picks a choice and checks it.
    pub fn pick(self, value: &str) -> Result<()> {
        self.page.run(
            "for (const box of probe.all('.exercise-choices input', args[1])) box.checked = box.value === args[0]",
            json!([value, self.host]),
        )?;
        self.press("check")
    }

    /// Which question is asked, and what was earned before.
    pub fn place(self) -> Result<String> {
        self.page.get(
            "probe.one('[data-part=exercise-place]', args).textContent",
            json!(self.host),
        )
    }
}
