//! One browser: a WebDriver session without the asynchrony.

use std::fmt;
use std::future::Future;
use std::time::Duration;

use anyhow::{Context, Result, bail};
use fantoccini::actions::Actions;
use fantoccini::elements::Element;
use fantoccini::wd::{TimeoutConfiguration, WebDriverCompatibleCommand};
use fantoccini::{Client, ClientBuilder, Locator};
use http::Method;
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};
use tokio::runtime::{Builder, Runtime};
use url::{ParseError, Url};

use super::driver::Driver;
use super::environment::Environment;

/// Everything a browser would otherwise do besides showing the page, switched off.
const ARGUMENTS: [&str; 9] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

/// How long a script in the page may take: the accessibility check is the longest.
const SCRIPT_LIMIT: Duration = Duration::from_secs(60);

/// How long the browser may take over anything before it counts as hanging.
const COMMAND_LIMIT: Duration = Duration::from_secs(90);

/// A browser with a fresh profile, which its driver makes and removes.
pub(super) struct Session {
    runtime: Runtime,
    client: Option<Client>,
    /// Whether the driver has commands of its own beyond the standard.
    chromium: bool,
    in_window: bool,
    // After the client: the browser is closed through its driver.
    _driver: Driver,
}

impl Session {
    /// Chromium, or its headless shell where there is one and no window is wanted.
    pub(super) fn start(environment: &Environment, in_window: bool) -> Result<Self> {
        let driver = Driver::start(&environment.driver)?;
        let shell = environment.shell.as_ref().filter(|_| !in_window);
        let program = shell.unwrap_or(&environment.chromium);
        let capabilities = json!({
            "goog:chromeOptions": { "binary": program, "args": ARGUMENTS },
            "goog:loggingPrefs": { "browser": "ALL" },
        });
        let Value::Object(capabilities) = capabilities else {
            bail!("capabilities are an object");
        };
        let mut session = Self::connect(driver, capabilities, true)?;
        session.in_window = in_window;
        Ok(session)
    }

    pub(super) fn is_in_window(&self) -> bool {
        self.in_window
    }

    /// A session of whichever browser the driver is for.
    pub(super) fn connect(
        driver: Driver,
        capabilities: Map<String, Value>,
        chromium: bool,
    ) -> Result<Self> {
        let runtime = Builder::new_current_thread().enable_all().build()?;
        let client = limited(&runtime, async {
            let mut builder = ClientBuilder::new(HttpConnector::new());
            builder.capabilities(capabilities);
            builder.connect(&driver.address()).await
        })
        .context("the browser did not start")?;
        let session = Self {
            runtime,
            client: Some(client),
            chromium,
            in_window: true,
            _driver: driver,
        };
        let limits = TimeoutConfiguration::new(Some(SCRIPT_LIMIT), Some(COMMAND_LIMIT), None);
        session.run(async |client| client.update_timeouts(limits).await)?;
        Ok(session)
    }

    /// Does something with the WebDriver client.
    pub(super) fn run<T, E>(&self, action: impl AsyncFnOnce(&Client) -> Result<T, E>) -> Result<T>
    where
        E: std::error::Error + Send + Sync + 'static,
    {
        let client = self.client.as_ref().context("the browser is closed")?;
        limited(&self.runtime, action(client))
    }

    /// A command of the browser's own protocol.
    pub(super) fn cdp(&self, command: &str, parameters: Value) -> Result<Value> {
        let body = json!({ "cmd": command, "params": parameters });
        self.extension("goog/cdp/execute", body)
            .with_context(|| format!("{command} failed"))
    }

    /// Runs a script in Firefox's own window, around the page.
    pub(super) fn run_in_firefox(&self, script: &str, arguments: Vec<Value>) -> Result<()> {
        let enter = |context: &str| self.extension("moz/context", json!({ "context": context }));
        enter("chrome")?;
        let outcome = self.run(async |client| client.execute(script, arguments).await);
        enter("content")?;
        outcome.map(drop)
    }

    /// What the browser has logged since it was last asked; other browsers do not tell.
    pub(super) fn log(&self) -> Result<Vec<Value>> {
        if !self.chromium {
            return Ok(Vec::new());
        }
        let entries = self.extension("se/log", json!({ "type": "browser" }))?;
        Ok(serde_json::from_value(entries)?)
    }

    pub(super) fn actions(&self, actions: Actions) -> Result<()> {
        self.run(async |client| client.perform_actions(actions).await)
    }

    /// An element inside the open shadow root of `host`.
    pub(super) fn in_shadow(&self, host: &str, selector: &str) -> Result<Element> {
        self.run(async |client| {
            let host = client.find(Locator::Css(host)).await?;
            host.shadow_root().await?.find(Locator::Css(selector)).await
        })
        .with_context(|| format!("no {selector} in {host}"))
    }

    /// Lets time pass on behalf of a condition that is looked at again and again.
    pub(super) fn pause(&self, time: Duration) {
        self.runtime
            .block_on(async { tokio::time::sleep(time).await });
    }

    /// Goes on in a new tab, with no other left open, and nothing in the log.
    pub(super) fn start_afresh(&self) -> Result<()> {
        self.run(async |client| {
            let old = client.windows().await?;
            let new = client.new_window(true).await?.handle;
            for window in old {
                client.switch_to_window(window).await?;
                client.close_window().await?;
            }
            client.switch_to_window(new).await
        })?;
        self.cdp("Page.bringToFront", json!({}))?;
        self.log().map(drop)
    }

    fn extension(&self, path: &'static str, body: Value) -> Result<Value> {
        self.run(async |client| client.issue_cmd(Extension { path, body }).await)
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        if let Some(client) = self.client.take() {
            // Stopping the driver is the second try.
            let _ = limited(&self.runtime, client.close());
        }
    }
}

fn limited<T, E>(runtime: &Runtime, action: impl Future<Output = Result<T, E>>) -> Result<T>
where
    E: std::error::Error + Send + Sync + 'static,
{
    let outcome = runtime.block_on(async { tokio::time::timeout(COMMAND_LIMIT, action).await });
    let outcome = outcome.with_context(|| format!("no answer in {COMMAND_LIMIT:?}"))?;
    Ok(outcome?)
}

/// A command that the driver has beyond the standard.
struct Extension {
    path: &'static str,
    body: Value,
}

impl fmt::Debug for Extension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.path)
    }
}

impl WebDriverCompatibleCommand for Extension {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        let session = session.unwrap_or_default();
        base.join(&format!("session/{session}/{}", self.path))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(self.body.to_string()))
    }
}
