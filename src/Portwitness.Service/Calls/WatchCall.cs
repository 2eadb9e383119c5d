using Grpc.Core;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Findings;
using Portwitness.Following.Contracts;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>One Watch call: options, then bytes as a bench records them, and findings back as they are made.</summary>
internal sealed class WatchCall(
    ServiceLimits limits, WatchedCall call, IAsyncStreamReader<Wire.DecodeRequest> requests, IServerStreamWriter<Wire.WatchResponse> responses,
    CancellationToken cancellation)
{
    private readonly Dictionary<object, Finding> _provisional = [];
    private Wire.DecodedMessages _unsent = new();
    private IReadOnlyList<Finding>? _last;
    private int _told;
    private int _contractsTold;
    private long _requestTold;

    /// <summary>Follows the capture to its end.</summary>
    public async Task<(CaptureAnalysis Analysis, long Bytes)> RunAsync()
    {
        CaptureAnalyzer analyzer = new(await ReadOptionsAsync());
        Upload upload = new(analyzer.Input, limits, call);
        while (await requests.MoveNext(cancellation))
        {
            if (requests.Current.PartCase != Wire.DecodeRequest.PartOneofCase.Data)
            {
                throw InvalidRequest.Because("options", "sent twice; after the options only data may follow.");
            }

            await upload.TakeAsync(requests.Current.Data, SendFullAnswerAsync, cancellation);
            await SendMessagesAsync();
            await TellAsync(analyzer);
            await TellContractsAsync(analyzer);
        }

        CaptureAnalysis analysis = analyzer.Complete();
        call.Answered(analysis);
        await SendMessagesAsync();
        await responses.WriteAsync(new Wire.WatchResponse { Capture = analysis.ToContract() }, cancellation);
        return (analysis, upload.Bytes);
    }

    private async Task<CaptureOptions> ReadOptionsAsync()
    {
        if (!await requests.MoveNext(cancellation) || requests.Current.PartCase != Wire.DecodeRequest.PartOneofCase.Options)
        {
            throw InvalidRequest.Because("options", "missing; they are the first message of a call.");
        }

        Wire.DecodeOptions options = requests.Current.Options;
        InvalidRequest invalid = new();
        if (options.Read?.Measurements is not null)
        {
            invalid.Add("options.read.measurements", "cannot be joined while a capture is watched; write them into the capture.");
        }

        CaptureOptions read = DecodeSetup.Read(options, invalid, limits, message => _unsent.Messages.Add(message.ToContract()));
        invalid.ThrowIfAny();
        return read;
    }

    // A request that is settled at once is told once.
    private async Task TellContractsAsync(CaptureAnalyzer analyzer)
    {
        for (; _contractsTold < analyzer.ContractsSoFar.Count; _contractsTold++)
        {
            await TellAsync(analyzer.ContractsSoFar[_contractsTold]);
        }

        if (analyzer.OpenRequest is { } open && open.MessageIndex > _requestTold)
        {
            await TellAsync(open);
            _requestTold = open.MessageIndex;
        }
    }

    private Task TellAsync(ContractAttempt attempt) => responses.WriteAsync(new Wire.WatchResponse { Contract = attempt.ToContract() }, cancellation);

    private async Task TellAsync(CaptureAnalyzer analyzer)
    {
        (IReadOnlyList<Finding> stays, IReadOnlyList<Finding> provisional, _) = analyzer.FoundSoFar();
        for (; _told < stays.Count; _told++)
        {
            await TellAsync(stays[_told], false, false);
        }

        if (ReferenceEquals(provisional, _last))
        {
            return;
        }

        _last = provisional;
        Dictionary<object, Finding> now = [];
        foreach (Finding finding in provisional)
        {
            object key = (finding.Rule, finding.MessageIndex, finding.ObjectPosition, finding.Observed, finding.Expected, finding.Verdict);
            if (now.TryAdd(key, finding) && !_provisional.ContainsKey(key))
            {
                await TellAsync(finding, true, false);
            }
        }

        foreach ((object key, Finding finding) in _provisional.Where(known => !now.ContainsKey(known.Key)))
        {
            await TellAsync(finding, true, true);
        }

        _provisional.Clear();
        foreach ((object key, Finding finding) in now)
        {
            _provisional.Add(key, finding);
        }
    }

    private Task TellAsync(Finding finding, bool isProvisional, bool isWithdrawn) => responses.WriteAsync(
        new Wire.WatchResponse
        {
            Finding = new Wire.WatchedFinding { Finding = finding.ToContract(), Provisional = isProvisional, Withdrawn = isWithdrawn },
        },
        cancellation);

    private ValueTask SendFullAnswerAsync() => _unsent.Messages.Count < limits.MessagesPerAnswer ? ValueTask.CompletedTask : SendMessagesAsync();

    private async ValueTask SendMessagesAsync()
    {
        if (_unsent.Messages.Count > 0)
        {
            Wire.DecodedMessages answer = _unsent;
            _unsent = new();
            await responses.WriteAsync(new Wire.WatchResponse { Messages = answer }, cancellation);
        }
    }
}
