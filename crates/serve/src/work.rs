//! The one worker that looks for findings: newest states only, one at a time,
//! so that what is told of an older state never comes after what is told of a
//! newer one.

use crate::texts::{Open, Texts};
use notebook::editor::Desk;
use report::Finding;
use std::collections::BTreeSet;
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

/// Whoever tells the editor.
pub trait Teller: Send {
    /// What was found in a state of a text.
    fn tell(&self, address: &str, open: &Open, findings: &[Finding], desk: &mut Desk);
    /// Work on a text begins.
    fn begin(&self, address: &str);
    /// It has ended.
    fn end(&self, address: &str);
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Shared {
    /// The desk with the newest state of a text on it.
    pub fn desk(&self, open: &Open) -> MutexGuard<'_, Desk> {
        let mut desk = locked(&self.desk);
        desk.put(&open.path, open.kind, open.text.clone());
        desk
    }

    /// The desk as it is.
    pub fn bare_desk(&self) -> MutexGuard<'_, Desk> {
        locked(&self.desk)
    }

    /// Has a text looked at.
    pub fn wake(&self, address: &str) {
        locked(&self.waiting).insert(address.to_owned());
        self.woken.notify_one();
    }

    /// Has every open text looked at.
    pub fn wake_all(&self) {
        locked(&self.waiting).extend(self.texts.addresses());
        self.woken.notify_one();
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
            look(&shared, &address, &teller);
        }
    });
}

/// Looks at the newest state of a text and tells what is found, unless there is a newer one by then.
fn look(shared: &Shared, address: &str, teller: &dyn Teller) {
    let Some(open) = shared.texts.get(address) else {
        return;
    };
    shared.given_up.store(false, Ordering::Relaxed);
    teller.begin(address);
    let stale = || !shared.texts.is_newest(address, open.state);
    let mut desk = shared.desk(&open);
    let stop = || shared.given_up.load(Ordering::Relaxed) || stale();
    if let Some(findings) = desk.findings_unless(&open.path, &stop)
        && !stale()
    {
        teller.tell(address, &open, &findings, &mut desk);
    }
    drop(desk);
    teller.end(address);
}
