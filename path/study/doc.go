// Package study works on predictions: ranking, trade-off front, uncertainty, calibration to readings, sizing.
package study
