using System.Text;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Captures.Measurements;
using Portwitness.History;
using Portwitness.Product;
using Portwitness.Product.Energy;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>One Check call: options, then each file as it is asked for, then the report.</summary>
internal sealed class CheckCall(
    ServiceLimits limits,
    WatchedCall call,
    IReportStore? store,
    IAsyncStreamReader<Wire.CheckRequest> requests,
    IServerStreamWriter<Wire.CheckResponse> responses,
    CancellationToken cancellation) : IDisposable
{
    private readonly InputHashes _inputs = new();
    private Wire.CheckOptions _options = new();

    public async Task<(ProductAnalysis Analysis, int Files)> RunAsync()
    {
        using ProductCheck check = await ReadOptionsAsync();
        while (check.LabelFile is { } label)
        {
            await responses.WriteAsync(new Wire.CheckResponse { Need = label }, cancellation);
            await ReceiveLabelAsync(check, label);
        }

        foreach ((int index, string file) in check.Files.Index())
        {
            if (check.MeasurementsOf(index) is { } measurements)
            {
                await ReceiveInTurnsAsync(check, file, measurements);
                continue;
            }

            await responses.WriteAsync(new Wire.CheckResponse { Need = file }, cancellation);
            await ReceiveAsync(check, file);
        }

        foreach (ProductLog log in check.Logs)
        {
            await responses.WriteAsync(new Wire.CheckResponse { Need = log.File }, cancellation);
            await ReceiveLogAsync(check, log.File);
        }

        ProductAnalysis analysis = check.Complete();
        Wire.ProductReport report = analysis.ToContract();
        _inputs.AddTo(report);
        await KeepAsync(report, analysis);

        call.Answered(analysis);
        await responses.WriteAsync(new Wire.CheckResponse { Report = report }, cancellation);
        return (analysis, check.Files.Count + check.Logs.Count + check.LabelFiles.Count);
    }

    // What is kept can be drawn later; a report is given whether it could be kept or not, and says so.
    private async Task KeepAsync(Wire.ProductReport report, ProductAnalysis analysis)
    {
        if (store is not null || _options.Plots)
        {
            report.AddPlots(analysis);
        }

        if (store is not null)
        {
            await SaveAsync(store, report);
        }

        if (!_options.Plots)
        {
            ReportPlots.Remove(report);
        }
    }

    private async Task SaveAsync(IReportStore place, Wire.ProductReport report)
    {
        try
        {
            await place.SaveAsync(InputKey.Of(_options, report), report, cancellation);
        }
        catch (StoreException exception)
        {
            report.Faults.Add(new Wire.Fault { Code = ServiceFaultCodes.NotKept, Detail = $"the report could not be kept. {exception.Message}" });
        }
    }

    public void Dispose() => _inputs.Dispose();

    private async Task<ProductCheck> ReadOptionsAsync()
    {
        if (!await requests.MoveNext(cancellation)
            || requests.Current.PartCase != Wire.CheckRequest.PartOneofCase.Options)
        {
            throw InvalidRequest.Because("options", "missing; they are the first message of a call.");
        }

        _options = requests.Current.Options;
        ProductCheck check = CheckSetup.Read(_options, limits);
        if (_options.Product is { } product)
        {
            _inputs.AddText(product.File, product.Text);
            call.Received(Encoding.UTF8.GetByteCount(product.Text));
        }

        return check;
    }

    private Task ReceiveAsync(ProductCheck check, string file) => ReceiveAsync(
        file, () => new Upload(check.Open(file), limits, call), check.Close, reason => check.Missing(file, reason));

    private Task ReceiveLabelAsync(ProductCheck check, string file) => ReceiveAsync(
        file, () => new Upload(check.OpenLabel(), limits, call), check.CloseLabel, check.MissingLabel);

    private Task ReceiveLogAsync(ProductCheck check, string file) => ReceiveAsync(
        file, () => new Upload(check.OpenLog(), limits, call), check.CloseLog, check.MissingLog);

    private async Task ReceiveAsync(string file, Func<Upload> open, Action close, Action<string> missing)
    {
        Upload? upload = null;
        while (await requests.MoveNext(cancellation))
        {
            switch (requests.Current.PartCase)
            {
                case Wire.CheckRequest.PartOneofCase.Data:
                    upload ??= open();
                    _inputs.Add(file, requests.Current.Data);
                    await upload.TakeAsync(requests.Current.Data, static () => ValueTask.CompletedTask, cancellation);
                    break;
                case Wire.CheckRequest.PartOneofCase.End:
                    _ = upload ?? open();
                    _inputs.End(file);
                    close();
                    return;
                case Wire.CheckRequest.PartOneofCase.Missing when upload is null:
                    missing(Reason());
                    return;
                case Wire.CheckRequest.PartOneofCase.Missing:
                    throw InvalidRequest.Because("missing", "sent after data of the same file; end it instead.");
                case Wire.CheckRequest.PartOneofCase.Options:
                    throw InvalidRequest.Because("options", "sent twice; after the options only files may follow.");
                default:
                    throw InvalidRequest.Because("part", "empty; send data, end or missing for the file that was asked for.");
            }
        }

        throw InvalidRequest.Because("end", "missing; the upload stopped within a file that was asked for.");
    }

    // Capture and measurements are wanted in turns, so that neither has to be held.
    private async Task ReceiveInTurnsAsync(ProductCheck check, string file, string measurements)
    {
        ByteString? first = await AskAsync(NeededInput.Capture, file);
        if (requests.Current.PartCase == Wire.CheckRequest.PartOneofCase.Missing)
        {
            check.Missing(file, Reason());
            return;
        }

        Upload upload = new(check.Open(file).Input, limits, call);
        bool isFirst = true;
        await upload.TakeInTurnsAsync(
            async wanted =>
            {
                if (isFirst && wanted == NeededInput.Capture)
                {
                    isFirst = false;
                    return first;
                }

                ByteString? piece = await AskAsync(wanted, wanted == NeededInput.Capture ? file : measurements);
                if (requests.Current.PartCase == Wire.CheckRequest.PartOneofCase.Missing)
                {
                    check.MissingMeasurements(measurements, Reason());
                }

                return piece;
            },
            static () => ValueTask.CompletedTask, cancellation);
        check.Close();
    }

    private async Task<ByteString?> AskAsync(NeededInput wanted, string file)
    {
        await responses.WriteAsync(new Wire.CheckResponse { NeedPiece = wanted.ToContract(file) }, cancellation);
        bool isThere = await requests.MoveNext(cancellation);
        switch (isThere ? requests.Current.PartCase : Wire.CheckRequest.PartOneofCase.None)
        {
            case Wire.CheckRequest.PartOneofCase.Data:
                _inputs.Add(file, requests.Current.Data);
                return requests.Current.Data;
            case Wire.CheckRequest.PartOneofCase.End:
                _inputs.End(file);
                return null;
            case Wire.CheckRequest.PartOneofCase.Missing:
                return null;
            default:
                throw InvalidRequest.Because("part", "missing; send data, end or missing for the file that was asked for.");
        }
    }

    private string Reason()
    {
        InvalidRequest invalid = new();
        invalid.CheckName("missing.reason", requests.Current.Missing.Reason, limits);
        invalid.ThrowIfAny();
        return requests.Current.Missing.Reason;
    }
}
