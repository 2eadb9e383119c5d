using System.Globalization;
using Google.Protobuf;
using Portwitness.Contracts.V1;

namespace Portwitness.Endurance;

/// <summary>Products of the demo as requests, each with content of its own.</summary>
internal static class DemoRequests
{
    private static readonly string[] Demos = ["clean-th65", "dishonest-th100", "broken-tp20"];
    private static readonly SubmitRequest[] Read = [.. Demos.Select(ReadDemo)];

    /// <summary>A product of which there is no other one.</summary>
    public static SubmitRequest Of(int number)
    {
        SubmitRequest request = Read[number % Read.Length].Clone();
        request.Options.Product.Text += string.Create(CultureInfo.InvariantCulture, $"\nsample: \"{number}\"\n");
        return request;
    }

    private static SubmitRequest ReadDemo(string demo)
    {
        string folder = Repository.PathOf("captures", demo);
        string text = string.Join('\n', File.ReadLines(Path.Combine(folder, "product.yaml")).Where(static line => !line.StartsWith("sample:", StringComparison.Ordinal)));
        SubmitRequest request = new() { Options = new CheckOptions { Product = new ProductFile { File = "product.yaml", Text = text } } };
        request.Files.AddRange(Directory.GetFiles(folder, "*.jsonl").Select(static file => new SubmittedFile
        {
            File = Path.GetFileName(file), Data = ByteString.CopyFrom(File.ReadAllBytes(file)),
        }));
        return request;
    }
}
