//! What stays as it was, and what is left alone.

use super::*;

fn names(folder: &Path) -> usize {
    fs::read_dir(folder).unwrap().count()
}

#[test]
fn a_file_that_changed_meanwhile_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    fs::write(&path, "theirs").unwrap();
    assert!(matches!(replace(&path, "read", "new"), Err(Unwritten::Changed)));
    assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
    replace(&path, "theirs", "new").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "new");
    assert_eq!(names(folder.path()), 1);
}

#[test]
fn a_file_that_another_run_holds_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    fs::write(&path, "old").unwrap();
    let other = held(&path).unwrap();
    assert!(matches!(replace(&path, "old", "new"), Err(Unwritten::Busy)));
    assert!(matches!(put(&path, b"new"), Err(Unwritten::Busy)));
    drop(other);
    replace(&path, "old", "new").unwrap();
}

#[test]
fn what_an_ended_run_left_is_cleared_away_and_what_a_running_one_holds_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    fs::write(folder.path().join(".snell-left"), "half").unwrap();
    fs::write(folder.path().join(".snell-held"), "half").unwrap();
    let holder = File::open(folder.path().join(".snell-held")).unwrap();
    holder.try_lock().unwrap();
    create(&path, b"whole").unwrap();
    assert!(!folder.path().join(".snell-left").exists());
    assert!(folder.path().join(".snell-held").exists());
    assert!(create(&path, b"other").is_err(), "there is one by now");
    assert_eq!(fs::read_to_string(&path).unwrap(), "whole");
}

#[cfg(unix)]
#[test]
fn permissions_and_links_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    let link = folder.path().join("link.rig");
    fs::write(&path, "old").unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    symlink("a.rig", &link).unwrap();
    replace(&link, "old", "new").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "new");
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).unwrap();
    assert!(matches!(replace(&link, "new", "newer"), Err(Unwritten::ReadOnly)));
}

#[cfg(unix)]
#[test]
fn other_names_of_a_file_and_what_is_no_file_are_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    fs::write(&path, "old").unwrap();
    fs::hard_link(&path, folder.path().join("b.rig")).unwrap();
    assert!(matches!(replace(&path, "old", "new"), Err(Unwritten::Linked)));
    assert_eq!(fs::read_to_string(&path).unwrap(), "old");
    assert_eq!(names(folder.path()), 2);
    assert!(matches!(put(folder.path(), b"new"), Err(Unwritten::NoFile)));
}

#[cfg(unix)]
#[test]
fn the_owner_stays() {
    use std::os::unix::fs::{MetadataExt, chown};
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    fs::write(&path, "old").unwrap();
    if chown(&path, Some(1234), Some(1234)).is_err() {
        // Only a superuser gives files away, and only for one there is something to keep.
        return;
    }
    replace(&path, "old", "new").unwrap();
    let known = fs::metadata(&path).unwrap();
    assert_eq!((known.uid(), known.gid()), (1234, 1234));
}

#[cfg(unix)]
#[test]
fn a_path_that_a_text_names_stays_below_its_folder() {
    let folder = tempfile::tempdir().unwrap();
    let at = |written: &str| named_by_text(folder.path(), Path::new(written));
    fs::create_dir(folder.path().join("pictures")).unwrap();
    std::os::unix::fs::symlink("/", folder.path().join("out")).unwrap();
    assert_eq!(at("pictures/a.svg"), Ok(folder.path().join("pictures/a.svg")));
    assert_eq!(at("new/a.svg"), Ok(folder.path().join("new/a.svg")));
    assert_eq!(at("../a.svg"), Err(Outside::Leaves));
    assert_eq!(at("/a.svg"), Err(Outside::Leaves));
    assert_eq!(at("out/a.svg"), Err(Outside::Link));
    assert_eq!(at(".git/hooks/a.svg"), Err(Outside::Hidden));
    assert_eq!(at("pictures/.a.svg"), Err(Outside::Hidden));
}
