//! The one worker that looks for findings: newest states only, one at a time,
//! so that what is told of an older state never comes after what is told of a
//! newer one.

use crate::texts::{Open, Texts};
use snell_finding::Finding;
use snell_ide::Desk;
use std::collections::BTreeSet;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// What handlers and the worker share.
#[derive(Default)]
pub struct Shared {
    /// The texts as they are typed.
    pub texts: Texts,
    desk: Mutex<Desk>,
    waiting: Mutex<BTreeSet<String>>,
    woken: Condvar,
    given_up: AtomicBool,
    shut_down: AtomicBool,
}

/// Whoever tells the editor. All is told by the worker alone, and so in order.
pub trait Teller: Send {
    /// What is told of a state of a text.
    type Told;
    /// Work that goes on until this is dropped.
    type Work;
    /// Puts findings in the editor's words, while the desk is at hand.
    fn put(&self, open: &Open, findings: &[Finding], desk: &mut Desk) -> Self::Told;
    /// Tells the editor.
    fn tell(&self, address: &str, open: &Open, told: Self::Told);
    /// Tells that a text was closed, and nothing is said of it any more.
    fn clear(&self, address: &str);
    /// Work on a text begins.
    fn begin(&self, address: &str) -> Self::Work;
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Shared {
    /// The desk with a state of a text on it; nothing if that state is not the newest any more. A text that was
    /// closed meanwhile is so never put back.
    pub fn desk(&self, address: &str, open: &Open) -> Option<MutexGuard<'_, Desk>> {
        let mut desk = self.bare_desk();
        if !self.texts.is_newest(address, open.state) {
            return None;
        }
        let users = desk.put(&open.path, open.kind, open.text.clone());
        self.wake_paths(&users);
        Some(desk)
    }

    /// The desk as it is; a bare one where a thread panicked over it, since nothing on it can be relied on.
    pub fn bare_desk(&self) -> MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(|poisoned| {
            let mut desk = poisoned.into_inner();
            *desk = Desk::default();
            self.desk.clear_poison();
            desk
        })
    }

    /// Has a text looked at.
    pub fn wake(&self, address: &str) {
        locked(&self.waiting).insert(address.to_owned());
        self.woken.notify_one();
    }

    /// Has the open texts that used files of the disk looked at again. Whether there are any.
    pub fn disk_changed(&self, files: &[PathBuf]) -> bool {
        let users = self.bare_desk().changed(files);
        self.wake_paths(&users);
        !users.is_empty()
    }

    fn wake_paths(&self, paths: &[PathBuf]) {
        for path in paths {
            if let Some((address, _)) = self.texts.of_path(path) {
                self.wake(&address);
            }
        }
    }

    /// Clears the desk of what is not open any more.
    fn tidy_desk(&self) {
        let users = self.bare_desk().keep(|path| self.texts.of_path(path).is_some());
        self.wake_paths(&users);
    }

    /// Gives up the work that is being done.
    pub fn give_up(&self) {
        self.given_up.store(true, Ordering::Relaxed);
    }

    /// Notes that the editor asked to shut down.
    pub fn shut_down(&self) {
        self.shut_down.store(true, Ordering::Relaxed);
    }

    /// Whether it did.
    pub fn is_shut_down(&self) -> bool {
        self.shut_down.load(Ordering::Relaxed)
    }

    fn next(&self) -> String {
        let mut waiting = locked(&self.waiting);
        loop {
            if let Some(address) = waiting.pop_first() {
                return address;
            }
            waiting = self.woken.wait(waiting).unwrap_or_else(PoisonError::into_inner);
        }
    }
}

/// Starts the worker. It ends with the process.
pub fn start(shared: Arc<Shared>, teller: impl Teller + 'static) {
    std::thread::spawn(move || {
        loop {
            let address = shared.next();
            // A text that cannot be looked at must not end the looking at others; what it left on the desk is
            // thrown away with it.
            let _ = catch_unwind(AssertUnwindSafe(|| look(&shared, &address, &teller)));
        }
    });
}

/// Looks at the newest state of a text and tells what is found, unless there is a newer one by then.
fn look(shared: &Shared, address: &str, teller: &impl Teller) {
    let Some(open) = shared.texts.get(address) else {
        shared.tidy_desk();
        return teller.clear(address);
    };
    shared.given_up.store(false, Ordering::Relaxed);
    let stale = || !shared.texts.is_newest(address, open.state);
    let stop = || shared.given_up.load(Ordering::Relaxed) || stale();
    let work = teller.begin(address);
    let told = shared.desk(address, &open).and_then(|mut desk| {
        let findings = desk.findings_unless(&open.path, &stop)?;
        Some(teller.put(&open, &findings, &mut desk))
    });
    drop(work);
    if let Some(told) = told
        && !stale()
    {
        teller.tell(address, &open, told);
    }
}
