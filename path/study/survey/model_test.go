package survey

import "hushwake/path/study/draws/modeltest"

var model, drawn = modeltest.Of, modeltest.Drawn
