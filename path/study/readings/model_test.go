package readings

import "hushwake/path/study/draws/modeltest"

var model, drawn = modeltest.Of, modeltest.Drawn
