using System.Diagnostics;
using Grpc.Core;
using Portwitness.Analysis;
using Portwitness.Analysis.Findings;
using Portwitness.Product;

namespace Portwitness.Service.Telemetry;

/// <summary>One call from its beginning to its end: what it counts goes into the metrics at once, and sums into its span.</summary>
internal sealed class WatchedCall(ServiceMetrics metrics, string method, Activity? span) : IDisposable
{
    private readonly long _begun = Stopwatch.GetTimestamp();
    private long _captures;
    private long _messages;
    private long _received;
    private long _findings;

    /// <summary>How it ended. What ends without saying so was stopped.</summary>
    public StatusCode Status { get; set; } = StatusCode.Cancelled;

    /// <summary>Bytes came from the client.</summary>
    public void Received(long bytes)
    {
        _received += bytes;
        metrics.CountReceived(bytes);
    }

    /// <summary>A capture was read; of one that is only rewritten messages are not counted.</summary>
    public void Read(long messages)
    {
        _captures++;
        _messages += messages;
        metrics.CountCapture(messages);
    }

    /// <summary>A capture was analysed, and its findings are answered.</summary>
    public void Answered(CaptureAnalysis analysis)
    {
        Read(analysis.MessageCount);
        Found(analysis.Findings);
    }

    /// <summary>A product was checked, and its findings are answered.</summary>
    public void Answered(ProductAnalysis analysis)
    {
        foreach (CaptureAnalysis capture in analysis.Captures)
        {
            Read(capture.MessageCount);
        }

        // Those of its captures are among them.
        Found(analysis.Findings);
        metrics.CountProduct(analysis.Verdict);
    }

    /// <summary>Findings are answered.</summary>
    public void Found(IEnumerable<Finding> findings)
    {
        foreach (Finding finding in findings)
        {
            _findings++;
            metrics.CountFinding(finding);
        }
    }

    /// <summary>The call is answered with an error.</summary>
    public void Refused(RpcException exception)
    {
        Status = exception.StatusCode;
        if (exception.Reason() is { } reason)
        {
            metrics.Rejected(reason);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        metrics.CountCall(method, Status, Stopwatch.GetElapsedTime(_begun));
        if (span is null)
        {
            return;
        }

        span.SetTag("method", method).SetTag("status", Status.ToString())
            .SetTag("captures", _captures).SetTag("messages", _messages).SetTag("received", _received).SetTag("findings", _findings);
        // A client's mistake is not an error of the server.
        if (Status is StatusCode.Internal or StatusCode.Unknown or StatusCode.Unavailable or StatusCode.DataLoss)
        {
            span.SetStatus(ActivityStatusCode.Error);
        }

        span.Dispose();
    }
}
