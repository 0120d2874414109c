//! A web server for a folder on this machine, from a thread in the background.
//!
//! It sends the headers a careful static host would, above all a strict Content-Security-Policy, so
//! that anything the page does against them shows up here first.

use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use std::thread::JoinHandle;

use anyhow::{Context, Result, bail};
use axum::Router;
use axum::http::{HeaderName, HeaderValue, header};
use tokio::sync::oneshot;
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

/// Only the site's own files, and compiling the engine. Pictures may also be made by the page
/// itself (`data:`, `blob:`). The page states the same policy, for hosts that send no headers.
/// `frame-ancestors` is left open: the page may be embedded anywhere.
pub const CONTENT_SECURITY_POLICY: &str = "default-src 'none'; \
     script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; \
     font-src 'self'; connect-src 'self'; frame-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'";

/// A running server; it stops when this is dropped.
pub struct Site {
    address: String,
    stop: Option<oneshot::Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

impl Site {
    /// Where the site is, with a `/` at the end: `http://127.0.0.1:PORT/sub/path/`.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Serves until the program is stopped.
    pub fn wait(mut self) {
        if let Some(thread) = self.thread.take() {
            // The thread ends only by our own stop signal, so an error here is its panic, already
            // printed.
            let _ = thread.join();
        }
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        if let Some(stop) = self.stop.take() {
            // An error means that the server has already ended, which is what is wanted.
            let _ = stop.send(());
        }
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// Serves `folder` on a free port.
///
/// # Errors
/// The folder is not there, or no port can be had.
pub fn start(folder: &Path) -> Result<Site> {
    start_under(folder, "")
}

/// Serves `folder` on a free port under a sub-path such as `any/sub/path`; every other address of
/// that port is "not found".
///
/// # Errors
/// As [`start`].
pub fn start_under(folder: &Path, sub_path: &str) -> Result<Site> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).context("no free port")?;
    start_on(listener, folder, sub_path)
}

/// Serves `folder` on a port that is already ours.
///
/// # Errors
/// As [`start`].
pub fn start_on(listener: TcpListener, folder: &Path, sub_path: &str) -> Result<Site> {
    serve_on(listener, folder, sub_path, CONTENT_SECURITY_POLICY)
}

/// Serves `folder` on a free port under a sub-path with another Content-Security-Policy: somebody
/// else's host.
///
/// # Errors
/// As [`start`], or the policy is no text for a header.
pub fn start_foreign(folder: &Path, sub_path: &str, policy: &str) -> Result<Site> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).context("no free port")?;
    serve_on(listener, folder, sub_path, policy)
}

fn serve_on(listener: TcpListener, folder: &Path, sub_path: &str, policy: &str) -> Result<Site> {
    if !folder.is_dir() {
        bail!("there is no folder {} to serve", folder.display());
    }
    let path = normal(sub_path);
    let address = format!("http://{}{path}", listener.local_addr()?);
    listener.set_nonblocking(true)?;
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()?;
    let router = router(folder, &path, HeaderValue::from_str(policy)?);
    let (stop, stopped) = oneshot::channel();
    let thread = std::thread::Builder::new()
        .name(format!("site {address}"))
        .spawn(move || {
            // Requests under way are dropped with the runtime: a browser that keeps its connection open
            // must not keep the server alive.
            runtime.block_on(async {
                tokio::select! {
                    served = serve(listener, router) => if let Err(error) = served {
                        eprintln!("error: the web server stopped: {error:#}");
                    },
                    _ = stopped => {}
                }
            });
        })?;
    Ok(Site {
        address,
        stop: Some(stop),
        thread: Some(thread),
    })
}

async fn serve(listener: TcpListener, router: Router) -> Result<()> {
    let listener = tokio::net::TcpListener::from_std(listener)?;
    Ok(axum::serve(listener, router).await?)
}

fn router(folder: &Path, path: &str, policy: HeaderValue) -> Router {
    let files = ServeDir::new(folder);
    let router = match path {
        "/" => Router::new().fallback_service(files),
        _ => Router::new().nest_service(path, files),
    };
    let headers: [(HeaderName, &'static str); 4] = [
        // Pages of other hosts may take the element from here.
        (header::ACCESS_CONTROL_ALLOW_ORIGIN, "*"),
        // The browser asks each time, so a new build shows at the next reload.
        (header::CACHE_CONTROL, "no-cache"),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
    ];
    let router = router.layer(SetResponseHeaderLayer::overriding(
        header::CONTENT_SECURITY_POLICY,
        policy,
    ));
    headers.into_iter().fold(router, |router, (name, value)| {
        router.layer(SetResponseHeaderLayer::overriding(
            name,
            HeaderValue::from_static(value),
        ))
    })
}

/// `any/sub/path`, with or without slashes around it, as `/any/sub/path/`.
fn normal(sub_path: &str) -> String {
    match sub_path.trim_matches('/') {
        "" => "/".into(),
        path => format!("/{path}/"),
    }
}
