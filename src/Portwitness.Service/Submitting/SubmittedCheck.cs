using Portwitness.History;
using Portwitness.Product;
using Portwitness.Service.Calls;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Submitting;

/// <summary>Checks a product whose files are all there, by the same code that serves a client which is asked for them.</summary>
internal static class SubmittedCheck
{
    /// <summary>Checks it.</summary>
    /// <param name="request">What was submitted.</param>
    /// <param name="limits">What is taken.</param>
    /// <param name="call">Counts.</param>
    /// <param name="store">Where the report is kept; null for nowhere.</param>
    /// <param name="uploads">Where uploads lie; null for nowhere.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="Grpc.Core.RpcException">It cannot be judged.</exception>
    public static async Task<(Wire.ProductReport Report, ProductAnalysis Analysis)> RunAsync(
        Wire.SubmitRequest request, ServiceLimits limits, WatchedCall call, IReportStore? store, IUploadStore? uploads, CancellationToken cancellation)
    {
        await using SubmittedFiles files = new(request, uploads, cancellation);
        using CheckCall check = new(limits, call, store, files, files, cancellation);
        (ProductAnalysis analysis, _) = await check.RunAsync();
        return (files.Report!, analysis);
    }
}
