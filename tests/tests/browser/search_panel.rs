//! What the panels of both searches have in common, whose parts are called alike.

use anyhow::{Result, ensure};
use fantoccini::key::Key;
use levertrain_tests::browser::{Page, View, page, required, skipped};
use serde_json::{Value, json};
use xtask::site;
use xtask::test_environment::SITE;

/// A panel that searches.
#[derive(Clone, Copy)]
pub struct SearchPanel {
    /// What the names of its parts begin with.
    name: &'static str,
    /// What the browser keeps its search by, before the name of the train.
    kept: &'static str,
}

/// Finding teeth.
pub const TEETH: SearchPanel = SearchPanel {
    name: "find",
    kept: "levertrain search ",
};
/// Finding layouts.
pub const LAYOUTS: SearchPanel = SearchPanel {
    name: "layouts",
    kept: "levertrain layouts ",
};

impl SearchPanel {
    /// Unfolds the panel and waits for its fields.
    pub fn open(self, page: &Page) -> Result<()> {
        page.unfold(self.name)?;
        page.until(
            "the fields are there",
            &format!("probe.all('.{}-ratios input').length > 0", self.name),
        )?;
        page.rest()
    }

    /// Presses the button of this name.
    pub fn press(self, page: &Page, button: &str) -> Result<()> {
        page.click(&format!("[data-part={}-{button}]", self.name))
    }

    /// What a part says.
    pub fn text(self, page: &Page, part: &str) -> Result<String> {
        page.get(
            "probe.one(`[data-part=${args}]`).textContent",
            json!(format!("{}-{part}", self.name)),
        )
    }

    /// Waits until a part says something of which this is true.
    pub fn until_text(self, page: &Page, what: &str, part: &str, holds: &str) -> Result<()> {
        let part = format!("probe.one('[data-part={}-{part}]').textContent", self.name);
        page.until(what, &format!("{part}{holds}"))
    }

    /// Waits until all is looked through.
    pub fn wait(self, page: &Page) -> Result<()> {
        let name = self.name;
        // Both at once: the button is hidden before it begins, too.
        let ended = format!(
            "probe.one('[data-part={name}-rest]').hidden && probe.one('[data-part={name}-covered]').textContent !== ''"
        );
        page.until("all is looked through", &ended)?;
        page.rest()
    }

    /// Waits until a search that takes too long rests by itself and tells how it is run elsewhere; the task for that, as
    /// it is saved.
    pub fn task_of_long_search(self, page: &Page) -> Result<String> {
        self.until_text(page, "it rests by itself", "ahead", ".startsWith('Paused')")?;
        let is_hidden = |part: &str| -> Result<bool> {
            let part = json!(format!("{}-{part}", self.name));
            page.get("probe.one(`[data-part=${args}]`).hidden", part)
        };
        ensure!(!is_hidden("elsewhere")?, "no word of elsewhere");
        ensure!(!is_hidden("rest")?, "it cannot go on");
        let elsewhere = self.text(page, "elsewhere")?;
        ensure!(elsewhere.contains("--shard 1/2"), "{elsewhere:?}");
        page.run(
            "window.saved = undefined; URL.createObjectURL = (file) => { window.saved = file; return '#'; }; URL.revokeObjectURL = () => {}; HTMLAnchorElement.prototype.click = () => {}",
            Value::Null,
        )?;
        self.press(page, "task")?;
        page.run(
            "window.savedText = undefined; window.saved.text().then((text) => (window.savedText = text))",
            Value::Null,
        )?;
        page.until("it is saved", "window.savedText !== undefined")?;
        page.get("window.savedText", Value::Null)
    }

    /// Begins a search that rests, and waits until it is kept where it stands.
    pub fn keep(self, page: &Page) -> Result<()> {
        self.press(page, "begin")?;
        // A rest tells where it stands at once.
        self.until_text(page, "it has begun", "covered", " !== ''")?;
        self.press(page, "rest")?;
        page.until("it is kept", &self.is_kept())
    }

    /// Whether the browser keeps a search, as a condition.
    pub fn is_kept(self) -> String {
        format!(
            "Object.keys(localStorage).some((key) => key.startsWith('{}'))",
            self.kept
        )
    }

    /// Has what is kept be in an older format.
    pub fn make_old(self, page: &Page, format: u32) -> Result<()> {
        page.run(
            "const key = Object.keys(localStorage).find((key) => key.startsWith(args[0])); \
             const kept = JSON.parse(localStorage[key]); \
             kept.stands = kept.stands.map((stand) => JSON.stringify({ ...JSON.parse(stand), format: args[1] })); \
             localStorage[key] = JSON.stringify(kept)",
            json!([self.kept, format]),
        )
    }

    /// Closes the page, and goes on in it with what was kept.
    pub fn go_on(self, page: &Page) -> Result<()> {
        page.reload()?;
        page.unfold(self.name)?;
        page.until(
            "it is offered",
            &format!("!probe.one('[data-part={}-stood]').hidden", self.name),
        )?;
        self.press(page, "resume")
    }
}

/// Types into a field, in place of what it holds.
pub fn write(page: &Page, field: &str, text: &str) -> Result<()> {
    page.click(field)?;
    page.chord(Key::Control, 'a')?;
    page.keys(text.chars())
}

/// Has workers rest from the beginning: a search does not come to its end before its tab is closed.
pub fn rest_at_once(page: &Page) -> Result<()> {
    page.run(
        "const Usual = Worker; \
         window.Worker = class extends Usual { \
            postMessage(order) { super.postMessage(order); if (order.begin) super.postMessage({ rests: true }); } \
         }",
        Value::Null,
    )
}

/// Does something on pages that can have no workers: in a browser without them, and under a policy that forbids them.
pub fn without_workers(fragment: &str, test: impl Fn(&Page) -> Result<()>) -> Result<()> {
    page::open(View::LAPTOP, fragment, |page| {
        page.run(
            "window.made = 0; window.Worker = class { constructor() { window.made += 1; throw new Error('none here'); } }",
            Value::Null,
        )?;
        test(page)?;
        let tried: usize = page.get("window.made", Value::Null)?;
        ensure!(tried > 0, "no worker was asked for");
        Ok(())
    })?;
    if skipped() {
        return Ok(());
    }
    let policy = format!("{}; worker-src 'none'", site::CONTENT_SECURITY_POLICY);
    let address = format!("index.html{fragment}");
    page::open_foreign(&required(SITE)?, &policy, &address, |page| {
        page.expect_fault("worker-src");
        test(page)
    })
}
