using System.Globalization;
using Grpc.Core;
using Portwitness.History;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>Lists and opens reports that are kept.</summary>
internal sealed class HistoryCalls(IReportStore? store, ServiceLimits limits)
{
    public async Task<Wire.ListReportsResponse> ListAsync(Wire.ListReportsRequest request, CancellationToken cancellation)
    {
        InvalidRequest invalid = new();
        foreach ((string name, string text) in new[]
        {
            ("product", request.Product), ("sample", request.Sample), ("firmware", request.Firmware), ("rule", request.Rule), ("page_token", request.PageToken),
        })
        {
            invalid.CheckName(name, text, limits);
        }

        (long? before, int size) = invalid.ReadPage(request.PageToken, request.PageSize);
        DateTimeOffset? since = Time("since_us", request.HasSinceUs, request.SinceUs, invalid);
        DateTimeOffset? until = Time("until_us", request.HasUntilUs, request.UntilUs, invalid);
        invalid.ThrowIfAny();
        IReadOnlyList<StoredReport> found = await StoreCalls.AskAsync(StoreCalls.Of(store).ListAsync(
            new ReportQuery
            {
                Product = request.Product, Sample = request.Sample, Firmware = request.Firmware, Rule = request.Rule, Verdict = request.Verdict,
                Since = since, Until = until, Before = before, Most = size,
            },
            cancellation));
        Wire.ListReportsResponse response = new() { NextPageToken = found.Count == size ? found[^1].Id.ToString(CultureInfo.InvariantCulture) : "" };
        response.Reports.AddRange(found.Select(HistoryTranslation.ToContract));
        return response;
    }

    public async Task<Wire.ProductReport> GetAsync(Wire.GetReportRequest request, CancellationToken cancellation) =>
        await StoreCalls.AskAsync(StoreCalls.Of(store).FindAsync(request.Id, cancellation))
        ?? throw new RpcException(new Status(StatusCode.NotFound, $"No report has the number {request.Id}."));

    private static DateTimeOffset? Time(string name, bool has, long microseconds, InvalidRequest invalid)
    {
        const long Latest = 253_402_300_799_000_000;
        if (has && microseconds is < 0 or > Latest)
        {
            invalid.Add(name, "not a time between 1970 and 9999.");
            return null;
        }

        return has ? UnixMicroseconds.ToTime(microseconds) : null;
    }
}
