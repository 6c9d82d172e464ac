package matrix

import "syscall"

// inMemory is a folder in memory with room for a homeserver, "" where there is
// none. A homeserver writes each event through to the disk many times over, and no
// test of ours pulls the plug.
func inMemory() string {
	const folder, enough = "/dev/shm", 1 << 30
	var s syscall.Statfs_t
	if syscall.Statfs(folder, &s) != nil || syscall.Access(folder, 2) != nil || s.Bavail*uint64(s.Bsize) < enough {
		return ""
	}
	return folder
}
