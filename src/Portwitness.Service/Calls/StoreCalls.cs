using System.Globalization;
using Grpc.Core;
using Portwitness.History;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Calls;

/// <summary>What calls that need the store have in common.</summary>
internal static class StoreCalls
{
    /// <summary>The store, where the service has one.</summary>
    /// <exception cref="RpcException">It has none.</exception>
    public static IReportStore Of(IReportStore? store) => store
        ?? throw new RpcException(new Status(StatusCode.FailedPrecondition, "This service keeps no reports; start it with --store."));

    /// <summary>Waits for the store's answer, and tells of its failures as a call does.</summary>
    /// <exception cref="RpcException">It failed.</exception>
    public static async Task<T> AskAsync<T>(Task<T> answer)
    {
        try
        {
            return await answer;
        }
        catch (StoreException exception)
        {
            throw RefusalOf(exception);
        }
    }

    /// <summary>What a call says of a failure of the store.</summary>
    public static RpcException RefusalOf(StoreException exception) =>
        new(new Status(exception.IsUnreachable ? StatusCode.Unavailable : StatusCode.FailedPrecondition, exception.Message));

    /// <summary>Where a page begins and how long it is.</summary>
    public static (long? Before, int Size) ReadPage(this InvalidRequest invalid, string token, int size)
    {
        if (size is < 0 or > ReportQuery.Largest)
        {
            invalid.Add("page_size", $"{size}; 1 to {ReportQuery.Largest}, or 0 for {ReportQuery.Usual}.");
        }

        long before = 0;
        if (token.Length > 0 && !long.TryParse(token, NumberStyles.None, CultureInfo.InvariantCulture, out before))
        {
            invalid.Add("page_token", "not one of an answer of this service.");
        }

        return (token.Length > 0 ? before : null, size == 0 ? ReportQuery.Usual : size);
    }
}
