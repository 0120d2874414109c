//! The page as an app: installed by the browser, and started from there without its host.

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{View, page};
use serde_json::Value;

/// The size that the head of a PNG file names.
const SIZE: &str = "(async () => { \
    const bytes = await (await fetch(args)).arrayBuffer(); \
    const head = new DataView(bytes); \
    return [head.getUint32(16), head.getUint32(20)]; \
})()";

/// Catches a manifest that the policy, a wrong address or a missing icon keeps from being one, an icon of
/// another size than it says, and a start address that does not open once the host is gone.
#[test]
fn the_page_can_be_installed_and_starts_without_its_host() -> Result<()> {
    page::open(View::LAPTOP.keeping(), "", |page| {
        page.until_kept()?;
        let [errors, manifest] = page.installability()?;
        ensure!(
            errors["installabilityErrors"] == Value::Array(Vec::new()),
            "{errors}"
        );
        ensure!(manifest["errors"] == Value::Array(Vec::new()), "{manifest}");
        let text = manifest["data"].as_str().context("no manifest")?;
        let stated: Value = serde_json::from_str(text)?;
        let icons = stated["icons"].as_array().context("no icons")?;
        let png = icons.iter().filter(|icon| icon["type"] == "image/png");
        let mut sizes = Vec::new();
        for icon in png {
            let [width, height]: [u32; 2] = page.get(SIZE, icon["src"].clone())?;
            let size = format!("{width}x{height}");
            ensure!(icon["sizes"] == *size, "{icon} is {size}");
            let purpose = icon["purpose"].as_str().unwrap_or("any");
            sizes.push(format!("{width} {purpose}"));
        }
        ensure!(sizes == ["192 any", "512 any", "512 maskable"], "{sizes:?}");

        // Its start opens, and what it names is all kept.
        let address = page.address().to_owned();
        page.cut_server();
        let start: String = page.get(
            "new URL(args, document.querySelector('link[rel=manifest]').href).href",
            stated["start_url"].clone(),
        )?;
        let path = start
            .strip_prefix(&address)
            .with_context(|| format!("{start} is not under {address}"))?;
        page.goto(path)?;
        for icon in icons {
            let here = page.get::<bool>("fetch(args).then(({ ok }) => ok)", icon["src"].clone())?;
            ensure!(here, "{icon} is not kept");
        }
        ensure!(page.seen()?.ratio.is_some(), "it opens with nothing");
        Ok(())
    })
}
