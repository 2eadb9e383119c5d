using System.Globalization;
using Grpc.Core;
using Portwitness.History;
using Portwitness.Queue;
using Portwitness.Service.Calls;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Submitting;

/// <summary>Takes products for whichever node has time, and tells what became of them.</summary>
internal sealed class SubmissionCalls(IReportStore? store, IWorkQueue? queue, ServiceLimits limits)
{
    private const int MaxNamed = 10;

    /// <summary>Says which files a product needs and a request does not name.</summary>
    public static string WantedText(IReadOnlyList<string> files) =>
        $"missing: {string.Join(", ", files.Take(MaxNamed))}{(files.Count > MaxNamed ? $" and {files.Count - MaxNamed} more" : "")}. Name each file that the product needs.";

    public async Task<Wire.Submission> SubmitAsync(Wire.SubmitRequest request, WatchedCall call, CancellationToken cancellation)
    {
        SubmittedProduct product = SubmittedProduct.Read(request, "", limits);
        IReportStore kept = StoreCalls.Of(store);
        IWorkQueue work = queue ?? throw new RpcException(new Status(StatusCode.FailedPrecondition, "This service has no queue."));
        call.Received(request.CalculateSize());
        string key = product.Key();
        Wire.Submission? known = await StoreCalls.AskAsync(kept.Submissions.FindAsync(key, cancellation));
        if (known is { State: not Wire.SubmissionState.Queued } && await StoreCalls.AskAsync(kept.Submissions.IsLostAsync(key, cancellation)))
        {
            known = null;
        }

        if (known is null or { State: Wire.SubmissionState.Queued })
        {
            // What waits already is kept whole, whatever this request lacks.
            if (known is null && await WantedAsync(product, key, kept, cancellation) is { } wanted)
            {
                return wanted;
            }

            known ??= await StoreCalls.AskAsync(kept.Submissions.AddAsync(key, request, cancellation));
            if (known.State == Wire.SubmissionState.Queued)
            {
                await AddAsync(work, key, cancellation);
            }
        }

        return known;
    }

    public async Task<Wire.Submission> GetAsync(Wire.GetSubmissionRequest request, CancellationToken cancellation) =>
        await StoreCalls.AskAsync(StoreCalls.Of(store).Submissions.FindAsync(KeyOf(request.Key), cancellation)) ?? throw Unknown();

    public async Task<Wire.ListSubmissionsResponse> ListAsync(Wire.ListSubmissionsRequest request, CancellationToken cancellation)
    {
        InvalidRequest invalid = new();
        (long? before, int size) = invalid.ReadPage(request.PageToken, request.PageSize);
        if (!Enum.IsDefined(request.State) || request.State == Wire.SubmissionState.Incomplete)
        {
            invalid.Add("state", "queued, done or parked, or nothing for all.");
        }

        invalid.ThrowIfAny();
        IReadOnlyList<(long Number, Wire.Submission Submission)> found =
            await StoreCalls.AskAsync(StoreCalls.Of(store).Submissions.ListAsync(request.State, before, size, cancellation));
        Wire.ListSubmissionsResponse response = new()
        {
            NextPageToken = found.Count == size ? found[^1].Number.ToString(CultureInfo.InvariantCulture) : "",
        };
        response.Submissions.AddRange(found.Select(static one => one.Submission));
        return response;
    }

    public async Task<Wire.Submission> RetryAsync(Wire.RetrySubmissionRequest request, CancellationToken cancellation)
    {
        string key = KeyOf(request.Key);
        IReportStore kept = StoreCalls.Of(store);
        if (await StoreCalls.AskAsync(kept.Submissions.RetryAsync(key, cancellation)) && queue is not null)
        {
            await AddAsync(queue, key, cancellation);
        }

        return await StoreCalls.AskAsync(kept.Submissions.FindAsync(key, cancellation)) ?? throw Unknown();
    }

    private static async Task<Wire.Submission?> WantedAsync(SubmittedProduct product, string key, IReportStore kept, CancellationToken cancellation)
    {
        IReadOnlyList<string> missing = await StoreCalls.AskAsync(kept.Uploads.FindMissingAsync(product.Hashes, cancellation));
        if (product.WantedFiles.Count == 0 && missing.Count == 0)
        {
            return null;
        }

        Wire.Submission wanted = new() { State = Wire.SubmissionState.Incomplete, Key = product.WantedFiles.Count == 0 ? key : "" };
        wanted.WantedFiles.AddRange(product.WantedFiles);
        wanted.WantedContent.AddRange(missing);
        return wanted;
    }

    // It is kept as queued already: when this fails, sending it again, or a node that finds the queue empty, adds it.
    private static async Task AddAsync(IWorkQueue queue, string key, CancellationToken cancellation)
    {
        try
        {
            await queue.AddAsync(key, cancellation);
        }
        catch (QueueException exception)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, $"{exception.Message} The submission is kept; send it again, or wait.")).With(RejectionReason.Queue);
        }
    }

    private static string KeyOf(string key) => SubmittedProduct.IsHash(key) ? key : throw InvalidRequest.Because("key", "not 64 lower-case hexadecimal digits.");

    private static RpcException Unknown() => new(new Status(StatusCode.NotFound, "Nothing with that key was submitted here."));
}
