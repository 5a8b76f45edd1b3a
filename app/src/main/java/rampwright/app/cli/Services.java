package rampwright.app.cli;

import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.AnalyzeTraces;
import rampwright.app.usecase.Analyzer;
import rampwright.app.usecase.ChartPrediction;
import rampwright.app.usecase.ChartRenderer;
import rampwright.app.usecase.ChartTrials;
import rampwright.app.usecase.CompareTraces;
import rampwright.app.usecase.CompareTrials;
import rampwright.app.usecase.ConvertTrace;
import rampwright.app.usecase.DevicePorts;
import rampwright.app.usecase.ProbeDevices;
import rampwright.app.usecase.RecordTrial;
import rampwright.app.usecase.RunDemo;
import rampwright.app.usecase.SampleSource;
import rampwright.app.usecase.TraceFileDoor;
import rampwright.app.usecase.WatchPlant;

/**
 * What the commands work with; made by the launcher.
 *
 * @param door trace files
 * @param analyzer the analysis
 * @param charts pictures
 * @param predictions pictures of predictions
 * @param samples the samples that come with the program
 * @param version version of the program
 * @param threads how many trials may be worked on at a time
 * @param devices what stands behind devices
 */
public record Services(
    TraceFileDoor door,
    Analyzer analyzer,
    ChartRenderer charts,
    ChartPrediction.PredictionRenderer predictions,
    SampleSource samples,
    String version,
    int threads,
    DevicePorts devices) {

  /** Without devices. */
  public Services(
      TraceFileDoor door,
      Analyzer analyzer,
      ChartRenderer charts,
      ChartPrediction.PredictionRenderer predictions,
      SampleSource samples,
      String version,
      int threads) {
    this(door, analyzer, charts, predictions, samples, version, threads, DevicePorts.NONE);
  }

  ProbeDevices probeDevices() {
    return new ProbeDevices(devices);
  }

  WatchPlant watchPlant() {
    return new WatchPlant(devices, analyzeTraces());
  }

  RecordTrial recordTrial() {
    return new RecordTrial(devices);
  }

  AnalyzeTraces analyzeTraces() {
    return new AnalyzeTraces(door, analyzer, version, threads);
  }

  CompareTrials compareTrials() {
    return new CompareTrials(analyzeTraces());
  }

  CompareTraces compareTraces() {
    return new CompareTraces(door, analyzer, charts, version);
  }

  ChartTrials chartTrials() {
    return new ChartTrials(door, analyzer, charts, version);
  }

  ConvertTrace convertTrace() {
    return new ConvertTrace(door, analyzer);
  }

  AdviseAsset adviseAsset() {
    return new AdviseAsset(door, analyzer, version);
  }

  ChartPrediction chartPrediction() {
    return new ChartPrediction(predictions);
  }

  RunDemo runDemo() {
    return new RunDemo(samples, analyzeTraces(), chartTrials());
  }
}
