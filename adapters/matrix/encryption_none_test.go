//go:build !goolm

package matrix

// fetchDevicesOfBot does nothing: devices matter in encrypted rooms alone.
func (m *maker) fetchDevicesOfBot() {}
