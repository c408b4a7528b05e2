package offers

import "hushwake/path/study/draws/modeltest"

var model = modeltest.Of
