using System.Text;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.Tests;

namespace Portwitness.Service.Tests;

/// <summary>Speaks with Check as a client does: options first, then every file that is asked for.</summary>
internal static class Checking
{
    public static CheckRequest OfProduct(string text) =>
        new() { Options = new CheckOptions { Product = new ProductFile { File = "product.yaml", Text = text } } };

    public static CheckRequest Data(string text) => new() { Data = ByteString.CopyFrom(text, Encoding.UTF8) };

    public static CheckRequest End => new() { End = new FileEnd() };

    public static CheckRequest Missing(string reason) => new() { Missing = new FileMissing { Reason = reason } };

    /// <summary>A product folder of the demo; null as a file's text says that it is missing.</summary>
    public static Task<ProductReport> CheckDemoAsync(
        this Witness.WitnessClient client, string folder, Func<string, string?>? instead = null)
    {
        string Read(string file) => File.ReadAllText(Repository.PathOf("captures", folder, file));
        return client.CheckAsync(
            need => (instead is null ? Read(need) : instead(need)) is { } text ? [Data(text), End] : [Missing("not there")],
            OfProduct(Read("product.yaml")));
    }

    public static async Task<ProductReport> CheckAsync(
        this Witness.WitnessClient client, Func<string, CheckRequest[]> give, params CheckRequest[] first)
    {
        using AsyncDuplexStreamingCall<CheckRequest, CheckResponse> call = client.Check();
        foreach (CheckRequest request in first)
        {
            await call.RequestStream.WriteAsync(request);
        }

        if (first.Length == 0)
        {
            await call.RequestStream.CompleteAsync();
        }

        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            if (call.ResponseStream.Current.PartCase == CheckResponse.PartOneofCase.Report)
            {
                ProductReport report = call.ResponseStream.Current.Report;
                // To the end of the call: who leaves before it has cancelled it.
                (await call.ResponseStream.MoveNext(CancellationToken.None)).Should().BeFalse();
                return report;
            }

            CheckRequest[] given = give(call.ResponseStream.Current.Need);
            foreach (CheckRequest request in given)
            {
                await call.RequestStream.WriteAsync(request);
            }

            if (given.Length == 0)
            {
                await call.RequestStream.CompleteAsync();
            }
        }

        throw new InvalidOperationException("The service ended without a report.");
    }
}
