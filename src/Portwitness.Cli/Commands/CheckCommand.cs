using System.CommandLine;
using Polly;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Formats;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>check: one product, or one capture against a label.</summary>
internal static class CheckCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> path = new Argument<string>("PATH")
        {
            Description = "a product's folder, its product.yaml, or one capture (a file, the kernel's power-delivery directory, or a folder of one\n"
                + "instrument's exports); - is a capture on standard input",
            Arity = ArgumentArity.ZeroOrOne,
        }.RefuseOptions();
        OffersOption offers = new();
        LabelOptions label = new();
        Option<string> port = new("--port")
        {
            Description = "port of the capture as the label names it; needed when neither the capture nor the label settles it",
            HelpName = "NAME",
        };
        ReadingOptions reading = new();
        StoreOption store = new();
        CommonOptions common = new(ReportFormat.Names);
        common.Format.Description = "text or markdown for people, html as a page of its own, json for scripts, csv for spreadsheets, junit and sarif\nfor build servers";
        Command command = new(
            "check",
            "Check what a product advertises against the standard and against its label. A folder with a product.yaml, or a\n"
            + ".yaml file, is a product; anything else is a single capture, checked against --label, or against the standard\n"
            + "alone without one.")
        {
            path, offers.Text, label.Text, label.File, label.Photo.Languages, port,
        };
        label.AddValidatorTo(command);
        reading.AddTo(command, port: false);
        common.AddTo(command, edition: true);
        command.Add(common.Guard);
        store.AddTo(command, common);
        command.Validators.Add(result =>
        {
            string named = result.GetValue(path) ?? "";
            if ((named.Length == 0) == (result.GetValue(offers.Text) is null))
            {
                result.AddError("check needs a product, a capture or --offers; one of them.");
            }
            if (CheckSubject.IsProduct(named) && (label.IsGiven(result) || result.GetValue(port) is not null || reading.IsGiven(result)))
            {
                result.AddError($"{named} is a product with a label of its own; --label, --label-file, --port, columns and measurements go with a single capture.");
            }
        });
        command.Show(
            "portwitness check chargers/th-65",
            "portwitness check c1.capture.jsonl --label \"USB-C1: 5V⎓3A 9V⎓3A 20V⎓3.25A (65W Max)\"",
            "portwitness check --offers \"5V 3A, 9V 3A, 15V 3A, 20V 3.35A, PPS 3.3-11V 5A\" --label @label.txt --port C1",
            "portwitness check /sys/class/typec/port0-partner/usb_power_delivery --label @label.txt",
            "portwitness check c1.capture.jsonl --label @label.txt --port C1 --fail-on violation",
            "portwitness check chargers/th-65 --without optional-voltage-above-9v",
            "portwitness check analyser.csv --columns time=1:ms,sop=3,hex=7 --label @label.txt --port C1",
            "portwitness check chargers/th-65 --format json --output th-65.json",
            "portwitness check chargers/th-65 --format html --output th-65.html",
            "portwitness check chargers/th-65 --store bench.db");
        command.SetAction(async (parsed, cancellation) =>
        {
            ReportFormat format = common.FormatsFrom(parsed)[0];
            PhotoReading photos = label.Photo.From(parsed, format.DrawsPlots);
            InputFile? typed = await offers.ReadAsync(parsed, terminal, cancellation, photos);
            string named = parsed.GetValue(path) ?? typed!.Name;
            CheckSubject subject = await CheckSubject.FromAsync(
                typed, named, await label.ReadAsync(parsed, photos, terminal, cancellation), parsed.GetValue(port),
                await reading.ReadAsync(parsed, terminal, cancellation), reading.MeasurementsFrom(parsed, terminal), terminal, photos, cancellation);
            common.SetTo(subject.Options, parsed);
            subject.Options.Plots = format.DrawsPlots;
            await using ServiceConnection service = await ServiceConnection.OpenAsync(
                common.ServerFrom(parsed), cancellation, await store.OpenAsync(parsed, cancellation), onRetry: terminal.Say);
            using ReportOutput output = new(terminal, common, parsed, single: true);
            ProductReport report = await ResilientCalls.RunAsync(
                typed is null && CheckSubject.IsProduct(named) ? service.Again : ResiliencePipeline.Empty,
                token => CheckDialogue.RunAsync(service.Client, subject.Options, subject.Open, common.ProgressFor(parsed, terminal), token), cancellation);
            foreach (Fault fault in report.Faults.Where(fault => report.Unusable || InputFaults.AreOfWholeFiles(fault.Code)))
            {
                terminal.Say(FaultListText.Of(fault));
            }

            bool isKept = StoredReports.SayWhatWasNotKept(report, terminal);
            int exitCode = report.Unusable ? ExitCode.Unusable : common.ExitCodeFor(parsed, report.Findings);
            ReportedProduct product = CheckSubject.Reported(
                named, report.Verdict, exitCode, () => report) with { Pictures = photos.Pictures };
            if (!report.Unusable || format.TellsUnusable)
            {
                output.Write(format, new ReportSet([product]) { Rules = await RuleList.ForAsync(format, service.Client, cancellation) });
            }

            output.Commit();
            return isKept ? exitCode : ExitCode.Unusable;
        });
        return command;
    }
}
