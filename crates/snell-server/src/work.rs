//! The workers that look for findings: newest states only, of each text one at a
//! time, so that what is told of an older state never comes after what is told
//! of a newer one.

use crate::texts::{Open, Texts};
use snell_finding::Finding;
use snell_ide::{Snapshot, Workspace};
use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// How many texts are looked at at once: a short one need not wait for a long one.
const WORKERS: usize = 2;

/// What handlers and the workers share.
#[derive(Default)]
pub struct Shared {
    /// The texts as they are typed.
    pub texts: Texts,
    /// The same, to be asked.
    pub workspace: Workspace,
    /// Held while the newest state of a text goes from the one to the other.
    handing_on: Mutex<()>,
    queue: Mutex<Queue>,
    woken: Condvar,
    given_up: AtomicU64,
    shut_down: AtomicBool,
}

/// The addresses of texts that are to be looked at.
#[derive(Default)]
struct Queue {
    waiting: BTreeSet<String>,
    running: BTreeSet<String>,
    /// What was told of last: the state of the text, and with what it used.
    told: BTreeMap<String, (u64, Snapshot)>,
}

/// Whoever tells the editor. All of one text is told by one worker after the other, and so in order.
pub trait Publisher: Send + Sync {
    /// What is told of a state of a text.
    type Told;
    /// Work that goes on until this is dropped.
    type Work;
    /// Puts findings in the editor's words.
    fn put(&self, open: &Open, snapshot: &Snapshot, findings: &[Finding]) -> Self::Told;
    /// Tells the editor.
    fn tell(&self, address: &str, open: &Open, told: Self::Told);
    /// Tells that a text was closed, and nothing is said of it any more.
    fn clear(&self, address: &str);
    /// Work on a text begins.
    fn begin(&self, address: &str) -> Self::Work;
    /// Whether the editor tells of files that change on the disk.
    fn watches(&self) -> bool;
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Shared {
    /// A text was opened or changed: it is handed on, and looked at.
    pub fn changed(&self, address: &str) {
        self.newest(address);
        self.wake(address);
    }

    /// A text was closed.
    pub fn closed(&self, address: &str, path: &Path) {
        let handing_on = locked(&self.handing_on);
        // It may be open under another address.
        let users = match self.texts.of_path(path) {
            Some(_) => Vec::new(),
            None => self.workspace.close(path),
        };
        drop(handing_on);
        self.wake(address);
        self.wake_paths(&users);
    }

    /// The newest state of a text, and the same to be asked.
    pub fn newest(&self, address: &str) -> Option<(Open, Snapshot)> {
        let handing_on = locked(&self.handing_on);
        let open = self.texts.get(address)?;
        let users = self.workspace.put(&open.path, open.kind, open.text.clone());
        let snapshot = self.workspace.snapshot(&open.path)?;
        drop(handing_on);
        self.wake_paths(&users);
        Some((open, snapshot))
    }

    /// Has a text looked at.
    fn wake(&self, address: &str) {
        locked(&self.queue).waiting.insert(address.to_owned());
        self.woken.notify_all();
    }

    /// Has the open texts that used files of the disk looked at again. Whether there are any.
    pub fn disk_changed(&self, files: &[PathBuf]) -> bool {
        let users = self.workspace.changed(files);
        self.wake_paths(&users);
        !users.is_empty()
    }

    /// Looks at all used files again. Whether one of them says something else than before.
    pub fn look_again(&self) -> bool {
        let users = self.workspace.look_again();
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

    /// Gives up the work that is being done.
    pub fn give_up(&self) {
        self.given_up.fetch_add(1, Ordering::Relaxed);
    }

    /// Notes that the editor asked to shut down.
    pub fn shut_down(&self) {
        self.shut_down.store(true, Ordering::Relaxed);
    }

    /// Whether it did.
    pub fn is_shut_down(&self) -> bool {
        self.shut_down.load(Ordering::Relaxed)
    }

    /// The next text to look at; one that is being looked at waits.
    fn next(&self) -> String {
        let mut queue = locked(&self.queue);
        loop {
            let free = queue.waiting.difference(&queue.running).next().cloned();
            if let Some(address) = free {
                queue.waiting.remove(&address);
                queue.running.insert(address.clone());
                return address;
            }
            queue = self.woken.wait(queue).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn done(&self, address: &str) {
        locked(&self.queue).running.remove(address);
        self.woken.notify_all();
    }

    /// Whether this very state was told of last, with the same files beside it. A text that was opened while this one
    /// was looked at may have been one of them, and was not.
    fn is_told(&self, address: &str, open: &Open, snapshot: &Snapshot) -> bool {
        let told = locked(&self.queue).told.get(address).cloned();
        told.is_some_and(|(state, told)| state == open.state && told.reads_as(snapshot))
    }

    fn note_told(&self, address: &str, open: &Open, snapshot: Snapshot) {
        let told = (open.state, snapshot);
        locked(&self.queue).told.insert(address.to_owned(), told);
    }

    fn forget_told(&self, address: &str) {
        locked(&self.queue).told.remove(address);
    }
}

/// Starts the workers. They end with the process.
pub fn start(shared: &Arc<Shared>, publisher: impl Publisher + 'static) {
    let publisher = Arc::new(publisher);
    for _ in 0..WORKERS {
        let (shared, publisher) = (shared.clone(), publisher.clone());
        std::thread::spawn(move || {
            loop {
                let address = shared.next();
                // A text that cannot be looked at must not end the looking at others.
                let _ = catch_unwind(AssertUnwindSafe(|| look(&shared, &address, &*publisher)));
                shared.done(&address);
                // After what was waited for: an editor that does not watch files tells of none.
                if !publisher.watches() {
                    shared.look_again();
                }
            }
        });
    }
}

/// Looks at the newest state of a text and tells what is found, unless there is a newer one by then.
fn look(shared: &Shared, address: &str, publisher: &impl Publisher) {
    let Some((open, snapshot)) = shared.newest(address) else {
        shared.forget_told(address);
        return publisher.clear(address);
    };
    if shared.is_told(address, &open, &snapshot) {
        return;
    }
    let given_up = shared.given_up.load(Ordering::Relaxed);
    let stale = || !shared.texts.is_newest(address, open.state);
    let stop = || shared.given_up.load(Ordering::Relaxed) != given_up || stale();
    let work = publisher.begin(address);
    let told = snapshot
        .findings(&stop)
        .map(|findings| publisher.put(&open, &snapshot, &findings));
    drop(work);
    if let Some(told) = told
        && !stale()
    {
        publisher.tell(address, &open, told);
        shared.note_told(address, &open, snapshot);
    }
}
