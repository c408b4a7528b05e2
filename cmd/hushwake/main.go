// Command hushwake predicts the noise of an engine exhaust on a boat, layout by layout.
package main

func main() {}
