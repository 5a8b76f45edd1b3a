package rampwright.app.cli;

import java.time.InstantSource;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.AnalyzeTraces;
import rampwright.app.usecase.Analyzer;
import rampwright.app.usecase.AskTrend;
import rampwright.app.usecase.ChartHeat;
import rampwright.app.usecase.ChartPrediction;
import rampwright.app.usecase.ChartReadiness;
import rampwright.app.usecase.ChartRenderer;
import rampwright.app.usecase.ChartTrials;
import rampwright.app.usecase.CheckReadiness;
import rampwright.app.usecase.CompareTraces;
import rampwright.app.usecase.CompareTrials;
import rampwright.app.usecase.ConvertTrace;
import rampwright.app.usecase.DevicePorts;
import rampwright.app.usecase.ExportStarts;
import rampwright.app.usecase.ImportStarts;
import rampwright.app.usecase.KeepHeat;
import rampwright.app.usecase.ListStarts;
import rampwright.app.usecase.LogTrial;
import rampwright.app.usecase.LogbookUse;
import rampwright.app.usecase.MakeRecord;
import rampwright.app.usecase.PlayBench;
import rampwright.app.usecase.ProbeDevices;
import rampwright.app.usecase.RaiseAlerts;
import rampwright.app.usecase.ReanalyzeStarts;
import rampwright.app.usecase.RecordTrial;
import rampwright.app.usecase.RunDemo;
import rampwright.app.usecase.SampleSource;
import rampwright.app.usecase.SignRecord;
import rampwright.app.usecase.TellDefinitions;
import rampwright.app.usecase.TendLogbook;
import rampwright.app.usecase.TickList;
import rampwright.app.usecase.TraceFileDoor;
import rampwright.app.usecase.WatchPlant;
import rampwright.app.usecase.WriteFleetPage;
import rampwright.app.usecase.WriteRecord;

/**
 * What the commands work with; made by the launcher.
 *
 * @param door trace files
 * @param analyzer the analysis
 * @param charts pictures
 * @param predictions pictures of predictions
 * @param heatCharts pictures of heat accounts
 * @param readyCharts pictures of readiness
 * @param samples the samples that come with the program
 * @param version version of the program
 * @param threads how many trials may be worked on at a time
 * @param clock what time it is
 * @param environment variables by name
 * @param devices what stands behind devices
 */
public record Services(
    TraceFileDoor door,
    Analyzer analyzer,
    ChartRenderer charts,
    ChartPrediction.PredictionRenderer predictions,
    ChartHeat.HeatRenderer heatCharts,
    ChartReadiness.ReadinessRenderer readyCharts,
    SampleSource samples,
    String version,
    int threads,
    InstantSource clock,
    UnaryOperator<@Nullable String> environment,
    DevicePorts devices) {

  /** Without devices. */
  public Services(
      TraceFileDoor door,
      Analyzer analyzer,
      ChartRenderer charts,
      ChartPrediction.PredictionRenderer predictions,
      ChartHeat.HeatRenderer heatCharts,
      ChartReadiness.ReadinessRenderer readyCharts,
      SampleSource samples,
      String version,
      int threads,
      InstantSource clock,
      UnaryOperator<@Nullable String> environment) {
    this(
        door,
        analyzer,
        charts,
        predictions,
        heatCharts,
        readyCharts,
        samples,
        version,
        threads,
        clock,
        environment,
        DevicePorts.NONE);
  }

  ProbeDevices probeDevices() {
    return new ProbeDevices(devices);
  }

  PlayBench playBench() {
    return new PlayBench(devices.time());
  }

  WatchPlant watchPlant() {
    return new WatchPlant(devices, analyzeTraces(), logTrial(), logbookUse());
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

  KeepHeat keepHeat() {
    return new KeepHeat(door, analyzer, version, clock);
  }

  ChartHeat chartHeat() {
    return new ChartHeat(heatCharts);
  }

  LogbookUse logbookUse() {
    return new LogbookUse(environment, clock);
  }

  ImportStarts importStarts() {
    return new ImportStarts(analyzeTraces(), logbookUse());
  }

  LogTrial logTrial() {
    return new LogTrial(analyzeTraces(), logbookUse());
  }

  ExportStarts exportStarts() {
    return new ExportStarts(logbookUse());
  }

  ReanalyzeStarts reanalyzeStarts() {
    return new ReanalyzeStarts(analyzeTraces(), logbookUse());
  }

  TellDefinitions tellDefinitions() {
    return new TellDefinitions(logbookUse());
  }

  ListStarts listStarts() {
    return new ListStarts(logbookUse());
  }

  TendLogbook tendLogbook() {
    return new TendLogbook(logbookUse());
  }

  AskTrend askTrend() {
    return new AskTrend(logbookUse());
  }

  RaiseAlerts raiseAlerts() {
    return new RaiseAlerts(logbookUse());
  }

  WriteFleetPage writeFleetPage() {
    return new WriteFleetPage(logbookUse(), clock);
  }

  CheckReadiness checkReadiness() {
    return new CheckReadiness(door, analyzer, version);
  }

  ChartReadiness chartReadiness() {
    return new ChartReadiness(readyCharts);
  }

  TickList tickList() {
    return new TickList(clock);
  }

  MakeRecord makeRecord() {
    return new MakeRecord(door, analyzer, version, clock, HeatText::line);
  }

  SignRecord signRecord() {
    return new SignRecord(clock);
  }

  WriteRecord writeRecord() {
    return new WriteRecord();
  }

  RunDemo runDemo() {
    return new RunDemo(samples, analyzeTraces(), chartTrials(), makeRecord());
  }
}
