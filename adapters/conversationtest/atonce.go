package conversationtest

import (
	"flag"
	"strconv"
)

// AtOnce sets how many of a package's tests run at a time, for its TestMain; the
// flag -parallel goes before it.
func AtOnce(tests int) {
	flag.Parse()
	if parallel := flag.Lookup("test.parallel"); parallel.Value.String() == parallel.DefValue {
		_ = flag.Set("test.parallel", strconv.Itoa(tests))
	}
}
