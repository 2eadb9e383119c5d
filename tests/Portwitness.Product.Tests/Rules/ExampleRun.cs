using System.Collections.Immutable;
using System.Diagnostics;
using System.Text;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Tests.Rules;

/// <summary>Runs the examples of rules.</summary>
internal static class ExampleRun
{
    /// <summary>What is found in an example.</summary>
    public static ImmutableArray<Finding> Of(RuleExample example) => example switch
    {
        ListExample list => Product(Encoding.UTF8.GetBytes(list.Words), null, list.Edition),
        LabelExample label => Product(Encoding.UTF8.GetBytes(label.Words), label.Label, null),
        ScriptExample script => Product(Synthesised.Bytes(script.Script), script.Label, null),
        MessageExample message => Message(message),
        ProductExample product => Product(product),
        _ => throw new UnreachableException(),
    };

    private static ImmutableArray<Finding> Message(MessageExample message)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "example" });
        analyzer.Write(Encoding.UTF8.GetBytes(
            $$"""
            {"capture":1}
            {"t":0,"sop":"SOP","hex":"{{message.Bytes}}","crc_ok":true}
            """));
        return analyzer.Complete().Findings;
    }

    private static ImmutableArray<Finding> Product(byte[] capture, string? label, Editions? edition)
    {
        ProductCheck check = ProductCheck.ForCapture("example", label, null, edition);
        check.Open("example").Write(capture);
        check.Close();
        return check.Complete().Findings;
    }

    private static ImmutableArray<Finding> Product(ProductExample product)
    {
        ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", product.Members.TrimEnd() + "\ncaptures:\n  - {file: example, port: C, in_use: [C]}\n", null,
            decision: product.Guarded ? DecisionRule.Guarded : DecisionRule.Simple);
        check.Open("example").Write(Encoding.UTF8.GetBytes(product.Words));
        check.Close();
        foreach (ProductLog log in check.Logs)
        {
            log.File.Should().Be("log.csv");
            check.OpenLog().Write(Encoding.UTF8.GetBytes(product.Log!));
            check.CloseLog();
        }

        return check.Complete().Findings;
    }
}
