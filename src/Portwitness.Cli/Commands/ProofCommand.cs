using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Proofing;

namespace Portwitness.Cli.Commands;

/// <summary>proof: the numbers of an article, held against the record.</summary>
internal static class ProofCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> article = new Argument<string>("ARTICLE") { Description = "the text, plain or in Markdown; - for standard input" }.RefuseOptions();
        Argument<string> product = new Argument<string>("PRODUCT") { Description = "a product's folder or product.yaml, or an earlier report in JSON" }.RefuseOptions();
        Option<bool> all = new("--all") { Description = "print the amounts that agree, too" };
        LabelOptions label = new();
        CommonOptions common = new();
        Command command = new(
            "proof",
            "Hold an article about a product against its record before it is published: every number with a unit agrees, differs,\n"
            + "is without evidence, is printed but said as measured, or is converted wrongly; and sentences about one port that\n"
            + "say different things. English, German and Chinese. The exit code is 1 when anything but missing evidence is found.")
        {
            article, product, all, label.Photo.Languages,
        };
        common.AddOutputTo(command);
        command.Add(common.Edition);
        command.Show("portwitness proof article.md chargers/th-65", "portwitness proof article.md reports/th-65.json --format json");
        command.SetAction(async (parsed, cancellation) =>
        {
            InputFile input = InputFile.From(parsed.GetRequiredValue(article), terminal);
            string text = await TextInput.ReadAsync(input, cancellation);
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            JudgedProduct products = new(service, common, parsed, label.Photo.From(parsed), terminal);
            ArticleProof proof = ArticleProofReader.Read(input.Name, text, await products.ReportAsync(parsed.GetRequiredValue(product), null, cancellation));
            using ReportOutput output = new(terminal, common, parsed, single: true);
            output.Write(proof, parsed.GetValue(all));
            ProofCounts counts = proof.Counts;
            return counts.Differs + counts.ConvertedWrongly + counts.Contradicts + counts.NotMeasured > 0 ? ExitCode.Findings : ExitCode.Clean;
        });
        return command;
    }
}
