//! The page and its host: the network, the history, and what the browser keeps of the site.

use anyhow::Result;
use serde_json::{Value, json};

use super::page::Page;

impl Page {
    /// Switches the network off or on.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn set_offline(&self, offline: bool) -> Result<()> {
        self.session().cdp("Network.enable", json!({}))?;
        let conditions = json!({
            "offline": offline,
            "latency": 0,
            "downloadThroughput": -1,
            "uploadThroughput": -1,
        });
        self.session()
            .cdp("Network.emulateNetworkConditions", conditions)?;
        Ok(())
    }

    /// Stops the server for good: nothing answers at the page's address any more.
    pub fn cut_server(&mut self) {
        self.site = None;
    }

    /// Loads the page again, as the reader's key does, and waits until its drawings are there.
    ///
    /// # Errors
    /// The page does not load, or shows no drawing.
    pub fn reload(&self) -> Result<()> {
        self.run("window.before = true", Value::Null)?;
        self.session().run(async |client| client.refresh().await)?;
        self.until("the page is a new one", "!window.before && probe.isOpen()")?;
        self.rest()
    }

    /// Back in the history of the page.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn back(&self) -> Result<()> {
        self.session().run(async |client| client.back().await)
    }

    /// Forward in the history of the page.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn forward(&self) -> Result<()> {
        self.session().run(async |client| client.forward().await)
    }

    /// Waits until the browser has all files of the site for when there is no network.
    ///
    /// # Errors
    /// It does not take them.
    pub fn until_kept(&self) -> Result<()> {
        self.until(
            "the page is kept",
            "await navigator.serviceWorker.ready.then(({ active }) => active?.state === 'activated')",
        )
    }

    /// What keeps the browser from installing the page, and what it says of the manifest.
    ///
    /// # Errors
    /// The browser refuses.
    pub fn installability(&self) -> Result<[Value; 2]> {
        let errors = self
            .session()
            .cdp("Page.getInstallabilityErrors", json!({}))?;
        let manifest = self.session().cdp("Page.getAppManifest", json!({}))?;
        Ok([errors, manifest])
    }
}
