using System.Collections.Immutable;
using Grpc.Core;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Findings;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Labels;
using Portwitness.Negotiation;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>One Negotiate call: options, the bytes of a capture unless a label is the source, then the report.</summary>
internal sealed class NegotiateCall(
    ServiceLimits limits,
    WatchedCall call,
    IAsyncStreamReader<Wire.NegotiateRequest> requests,
    IServerStreamWriter<Wire.NegotiateResponse> responses,
    CancellationToken cancellation)
{
    private const int MaxUnread = 20;

    public async Task<Wire.NegotiationReport> RunAsync()
    {
        (Wire.NegotiateOptions options, SinkPolicy policy, CaptureReadOptions reading) = await ReadOptionsAsync();
        bool isLabel = options.SourceCase == Wire.NegotiateOptions.SourceOneofCase.Label;
        NegotiationReportBuilder report = new(policy, isLabel ? "label" : options.Capture.File);
        ImmutableArray<SinkDescription> sinks = report.Read(options.Sinks);
        if (isLabel)
        {
            await ExpectEndAsync();
            report.Negotiate(OfLabel(options.Label, report), sinks);
        }
        else
        {
            CaptureAnalysis analysis = await ReceiveAsync(options.Capture.File, reading);
            report.AddFaults(analysis.Faults, analysis.File);
            report.Negotiate(CaptureOffers.Of(analysis), sinks);
        }

        Wire.NegotiationReport complete = report.Complete();
        await responses.WriteAsync(new Wire.NegotiateResponse { Report = complete }, cancellation);
        return complete;
    }

    private static ImmutableArray<SourceOffer> OfLabel(string text, NegotiationReportBuilder report)
    {
        Label label = LabelReader.Read(text);
        ImmutableArray<SourceOffer> offers = LabelOffers.Of(label, out ImmutableArray<CaptureFault> faults);
        report.AddFaults(faults, "label");
        report.AddFaults(label.Unread.Take(MaxUnread).Select(static unread => new CaptureFault(
            unread.At.Line, unread.At.Column, NegotiationFaultCodes.LabelUnread,
            $"\"{unread.Text.Trim()}\" could not be read, and is not among what is offered; read it by hand")), "label");
        int more = label.Unread.Length + label.UnlistedUnread - MaxUnread;
        report.AddFaults(more <= 0 ? [] : [AnalysisFaultCodes.Unlisted(more, "unread places", MaxUnread)], "label");
        return offers;
    }

    private async Task<CaptureAnalysis> ReceiveAsync(string file, CaptureReadOptions reading)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = file, Reading = reading });
        Upload upload = new(analyzer.Input, limits, call);
        while (await requests.MoveNext(cancellation))
        {
            if (requests.Current.PartCase != Wire.NegotiateRequest.PartOneofCase.Data)
            {
                throw InvalidRequest.Because("options", "sent twice; after the options only data may follow.");
            }

            await upload.TakeAsync(requests.Current.Data, static () => ValueTask.CompletedTask, cancellation);
        }

        CaptureAnalysis analysis = analyzer.Complete();
        call.Read(analysis.MessageCount);
        return analysis;
    }

    private async Task ExpectEndAsync()
    {
        while (await requests.MoveNext(cancellation))
        {
            throw InvalidRequest.Because("data", "sent with a label; a label is the whole source.");
        }
    }

    private async Task<(Wire.NegotiateOptions Options, SinkPolicy Policy, CaptureReadOptions Reading)> ReadOptionsAsync()
    {
        if (!await requests.MoveNext(cancellation)
            || requests.Current.PartCase != Wire.NegotiateRequest.PartOneofCase.Options)
        {
            throw InvalidRequest.Because("options", "missing; they are the first message of a call.");
        }

        Wire.NegotiateOptions options = requests.Current.Options;
        InvalidRequest invalid = new();
        CaptureReadOptions reading = new();
        switch (options.SourceCase)
        {
            case Wire.NegotiateOptions.SourceOneofCase.Capture:
                invalid.CheckName("options.capture.file", options.Capture.File, limits);
                reading = invalid.ReadReading("options.capture.read", options.Capture.Read, limits);
                break;
            case Wire.NegotiateOptions.SourceOneofCase.Label:
                invalid.CheckLabel("options.label", options.Label, limits);
                break;
            default:
                invalid.Add("options.source", "missing; name a capture or send the text of a label.");
                break;
        }

        if (reading.Measurements is not null)
        {
            invalid.Add("options.capture.read.measurements", "have no bearing on an offer; leave them out.");
        }

        SinkPolicy? policy = options.Policy.Length == 0 ? SinkPolicy.All[0] : SinkPolicy.Find(options.Policy);
        if (policy is null)
        {
            invalid.Add("options.policy", $"no policy; expected {string.Join(", ", SinkPolicy.All.Select(static one => one.Name))}.");
        }

        if (options.Sinks.Count is 0 or > SinkDescriptionReader.MaxSinks)
        {
            invalid.Add("options.sinks", $"{options.Sinks.Count} descriptions of devices; from 1 to {SinkDescriptionReader.MaxSinks} are taken.");
        }

        foreach (Wire.SinkInput sink in options.Sinks.Take(SinkDescriptionReader.MaxSinks))
        {
            invalid.CheckName("options.sinks.file", sink.File, limits);
        }

        invalid.ThrowIfAny();
        return (options, policy!, reading);
    }
}
