//! A page that is open in a browser.

use std::path::Path;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};
use fantoccini::elements::Element;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use xtask::site::{self, Site};

use super::environment::{Environment, skipped};
use super::pool::Pool;
use super::seen::{Canvas, Seen};
use super::session::Session;
use super::shots;
use super::view::View;

/// The element that the page is about.
pub const ELEMENT: &str = "lever-train";

/// Most tests are under a sub-path, where an address that starts at the root goes wrong.
const SUB_PATH: &str = "some/sub-path";

pub(super) const PROBE: &str = include_str!("probe.js");

/// As a browser is for a user who wants nothing kept.
const KEEP_NOTHING: &str = "delete Navigator.prototype.serviceWorker";

/// How long a condition may take to come true. Generous: a busy machine is no fault.
const PATIENCE: Duration = Duration::from_secs(30);
const LOOK_AGAIN: Duration = Duration::from_millis(15);

/// A browser that shows a page of the site.
pub struct Page {
    session: Session,
    /// None once the server is cut.
    pub(super) site: Option<Site>,
    address: String,
    view: View,
    /// Parts of the messages that are expected in the browser's log.
    expected: Vec<&'static str>,
}

/// Opens the page of the built site at `fragment` (with its `#`, or empty), runs the test and
/// closes everything.
///
/// # Errors
/// Those of the test, and any error the page or the browser reports unasked.
pub fn open(view: View, fragment: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Environment::read()?.site;
    open_in(&folder, view, &format!("index.html{fragment}"), test)
}

/// As [`open`], with a page of another folder.
///
/// # Errors
/// As [`open`].
pub fn open_in(
    folder: &Path,
    view: View,
    page: &str,
    test: impl FnOnce(&mut Page) -> Result<()>,
) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let site = site::start_under(folder, SUB_PATH)?;
    open_on(site, view, page, test)
}

/// As [`open`], with a page of another folder that somebody else's host sends with its own policy, in a browser that
/// would let it be kept.
///
/// # Errors
/// As [`open`].
pub fn open_foreign(
    folder: &Path,
    policy: &str,
    page: &str,
    test: impl FnOnce(&mut Page) -> Result<()>,
) -> Result<()> {
    let site = site::start_foreign(folder, SUB_PATH, policy)?;
    open_on(site, View::LAPTOP.keeping(), page, test)
}

fn open_on(
    site: Site,
    view: View,
    page: &str,
    test: impl FnOnce(&mut Page) -> Result<()>,
) -> Result<()> {
    let pool = Pool::shared();
    let mut page = Page::start(&pool, site, view, page)?;
    page.test(test)?;
    // A browser in which something failed is in nobody's hands again.
    pool.give_back(page.session, &page.address);
    Ok(())
}

impl Page {
    fn start(pool: &Pool, site: Site, view: View, page: &str) -> Result<Self> {
        let session = pool.take(view.in_window)?;
        view.apply(&session)?;
        let kept = (!view.keeps).then_some(KEEP_NOTHING);
        for source in [PROBE].into_iter().chain(kept) {
            let source = json!({ "source": source });
            session.cdp("Page.addScriptToEvaluateOnNewDocument", source)?;
        }
        let mut started = Self::on(session, site, page)?;
        started.view = view;
        Ok(started)
    }

    /// A page of the site in a browser that has been set up.
    pub(super) fn on(session: Session, site: Site, page: &str) -> Result<Self> {
        let started = Self {
            session,
            address: site.address().to_owned(),
            site: Some(site),
            view: View::LAPTOP,
            expected: Vec::new(),
        };
        started.goto(page)?;
        Ok(started)
    }

    /// Runs the test; a failure is told with what the page looks like.
    pub(super) fn test(&mut self, test: impl FnOnce(&mut Self) -> Result<()>) -> Result<()> {
        let outcome = test(self).and_then(|()| self.check_faults());
        outcome.map_err(|error| self.explain(error))
    }

    /// Where the site is served, with a `/` at the end.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// The screen the page is on.
    pub fn view(&self) -> View {
        self.view
    }

    /// Goes to a page of the site and waits until its drawings are there.
    ///
    /// # Errors
    /// The page does not load, or shows no drawing.
    pub fn goto(&self, page: &str) -> Result<()> {
        // Going to another fragment of the same page would not load it afresh.
        self.session
            .run(async |client| client.goto("about:blank").await)?;
        let address = format!("{}{page}", self.address());
        self.session
            .run(async |client| client.goto(&address).await)?;
        self.until("the drawings are there", "probe.isOpen()")?;
        self.rest()
    }

    /// Goes to the page as a file of this machine, where it cannot start.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn goto_file(&self, file: &Path) -> Result<()> {
        self.goto_silent(&format!("file://{}", file.display()))
    }

    /// Goes to an address at which nothing may be drawn.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn goto_silent(&self, address: &str) -> Result<()> {
        self.session.run(async |client| client.goto(address).await)
    }

    /// Changes the screen, or what the system asks for.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn change_view(&mut self, view: View) -> Result<()> {
        self.view = view;
        view.apply(&self.session)?;
        self.rest()
    }

    /// The value of a script: an expression, in which `probe` and `args` are known and promises
    /// are waited for.
    ///
    /// # Errors
    /// The script throws, or its value is not a `T`.
    pub fn get<T: DeserializeOwned>(&self, expression: &str, args: Value) -> Result<T> {
        const SHORT: usize = 300;
        let script = format!(
            "const [args, done] = arguments; \
             (async () => ({expression}))().then( \
                 (value) => done({{ value: value ?? null }}), \
                 (error) => done({{ error: String(error?.stack ?? error) }}));"
        );
        let context = || {
            let start: String = expression.chars().take(SHORT).collect();
            format!("in the page: {start}")
        };
        let outcome = self
            .session
            .run(async |client| client.execute_async(&script, vec![args]).await)
            .with_context(context)?;
        if let Some(error) = outcome.get("error") {
            bail!("{}: {error}", context());
        }
        let value = outcome.get("value").cloned().unwrap_or(Value::Null);
        serde_json::from_value(value).with_context(context)
    }

    /// Runs a script for its effect.
    ///
    /// # Errors
    /// The script throws.
    pub fn run(&self, statements: &str, args: Value) -> Result<()> {
        self.get(&format!("(() => {{ {statements}; return null; }})()"), args)
    }

    /// Waits until an expression is true.
    ///
    /// # Errors
    /// It does not become true; the message says what was waited for.
    pub fn until(&self, what: &str, condition: &str) -> Result<()> {
        let start = Instant::now();
        let condition = format!("Boolean({condition})");
        while !self.get::<bool>(&condition, Value::Null)? {
            ensure!(
                start.elapsed() < PATIENCE,
                "waited {PATIENCE:?} in vain until {what}"
            );
            self.session.pause(LOOK_AGAIN);
        }
        Ok(())
    }

    /// Waits until nothing moves any more.
    ///
    /// # Errors
    /// Something moves for ever.
    pub fn rest(&self) -> Result<()> {
        self.get::<()>("probe.rest()", Value::Null)
            .context("the page does not come to rest")
    }

    /// What the page shows once it has come to rest.
    ///
    /// # Errors
    /// Something moves for ever.
    pub fn seen(&self) -> Result<Seen> {
        self.seen_in(ELEMENT)
    }

    /// As [`Page::seen`], for one of several elements in a page.
    ///
    /// # Errors
    /// As [`Page::seen`].
    pub fn seen_in(&self, host: &str) -> Result<Seen> {
        self.rest()?;
        self.get("probe.seen(args)", json!(host))
    }

    /// What the page shows now, moving or not.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn seen_now(&self) -> Result<Seen> {
        self.get("probe.seen()", Value::Null)
    }

    /// The pixels of a drawing.
    ///
    /// # Errors
    /// There is no such drawing.
    pub fn canvas(&self, drawing: &str) -> Result<Canvas> {
        self.rest()?;
        self.get("probe.canvas(args)", json!(drawing))
    }

    /// An element in the shadow root.
    ///
    /// # Errors
    /// There is none.
    pub fn element(&self, selector: &str) -> Result<Element> {
        self.session.in_shadow(ELEMENT, selector)
    }

    /// Whether an element takes part in the layout: neither hidden nor inside something hidden.
    ///
    /// # Errors
    /// There is none.
    pub fn shows(&self, selector: &str) -> Result<bool> {
        self.get("probe.one(args).checkVisibility()", json!(selector))
    }

    /// Clicks an element as a user would: it must be in sight and on top.
    ///
    /// # Errors
    /// There is none, or it cannot be clicked.
    pub fn click(&self, selector: &str) -> Result<()> {
        self.click_in(ELEMENT, selector)
    }

    /// As [`Page::click`], in one of several elements in a page.
    ///
    /// # Errors
    /// As [`Page::click`].
    pub fn click_in(&self, host: &str, selector: &str) -> Result<()> {
        let element = self.session.in_shadow(host, selector)?;
        self.session
            .run(async |_| element.click().await)
            .with_context(|| format!("clicking {selector}"))
    }

    /// Unfolds a panel and waits until what it shows is there.
    ///
    /// # Errors
    /// There is no such panel, or it stays empty.
    pub fn unfold(&self, panel: &str) -> Result<()> {
        self.run("probe.one(`[data-part=${args}]`).open = true", json!(panel))?;
        self.until(
            &format!("the panel {panel} is filled"),
            &format!("probe.one('[data-part={panel}] .panel-body').childElementCount > 0"),
        )?;
        self.rest()
    }

    /// Presses a range button.
    ///
    /// # Errors
    /// As [`Page::click`].
    pub fn click_range(&self, id: &str) -> Result<()> {
        self.click(&format!(".range-buttons [data-range-id=\"{id}\"]"))
    }

    /// Chooses a scenario from the list and waits until it is there.
    ///
    /// # Errors
    /// It does not come.
    pub fn choose(&self, stem: &str) -> Result<()> {
        let option = self.element(&format!("#scenario option[value=\"{stem}\"]"))?;
        self.session.run(async |_| option.click().await)?;
        self.until(
            &format!("the scenario {stem} is on screen"),
            &format!("location.hash.startsWith('#s={stem}&')"),
        )
    }

    /// As [`Page::choose`], with the page at rest at its top as if it had opened with it.
    ///
    /// # Errors
    /// As [`Page::choose`].
    pub fn turn_to(&self, stem: &str) -> Result<()> {
        self.choose(stem)?;
        self.run(
            "scrollTo({ top: 0, left: 0, behavior: 'instant' })",
            Value::Null,
        )?;
        self.rest()
    }

    /// Opens a file through the page's file chooser.
    ///
    /// # Errors
    /// There is no file chooser.
    pub fn open_file(&self, path: &Path) -> Result<()> {
        let chooser = self.element("input[type=file]")?;
        let path = path.to_str().context("a path that is text")?;
        self.session.run(async |_| chooser.send_keys(path).await)
    }

    /// The message on screen: its faults, one text each.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn messages(&self) -> Result<Vec<String>> {
        let script = "probe.all('[data-part=message] li').map((node) => node.textContent)";
        self.get(script, Value::Null)
    }

    /// Lets foreign scripts do in the page what its security policy forbids.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn lift_security_policy(&self) -> Result<()> {
        self.session
            .cdp("Page.setBypassCSP", json!({ "enabled": true }))?;
        Ok(())
    }

    /// Expects the browser to log an error that has this text in it.
    pub fn expect_fault(&mut self, part: &'static str) {
        self.expected.push(part);
    }

    /// Keeps a picture of the whole page for people to look at.
    ///
    /// # Errors
    /// It cannot be taken or written.
    pub fn keep_shot(&self, name: &str) -> Result<()> {
        shots::keep_whole(self, &self.session, name)
    }

    /// Fails when the page or the browser has reported an error that nobody expected.
    ///
    /// # Errors
    /// There is one.
    pub fn check_faults(&self) -> Result<()> {
        let mut faults: Vec<String> = self.get("probe.faults.splice(0)", Value::Null)?;
        for entry in self.session.log()? {
            if entry["level"] == "SEVERE" {
                faults.push(format!("log: {}", entry["message"]));
            }
        }
        faults.retain(|fault| !self.expected.iter().any(|part| fault.contains(part)));
        ensure!(
            faults.is_empty(),
            "the page reports:\n{}",
            faults.join("\n")
        );
        Ok(())
    }

    pub(super) fn session(&self) -> &Session {
        &self.session
    }

    /// Adds to a failure what the page looks like and reports.
    fn explain(&self, error: anyhow::Error) -> anyhow::Error {
        let shot = shots::keep_failure(&self.session).map_or_else(
            |error| format!("no picture: {error:#}"),
            |path| format!("picture: {path}"),
        );
        let faults = match self.check_faults() {
            Ok(()) => String::new(),
            Err(faults) => format!("\n{faults:#}"),
        };
        error.context(format!("{shot}{faults}"))
    }
}
