using Grpc.Core;
using Microsoft.AspNetCore.Authorization;
using Microsoft.Extensions.Logging;
using Portwitness.Analysis;
using Portwitness.Analysis.Negotiation;
using Portwitness.Analysis.Product;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Synthesis;
using Portwitness.Captures;
using Portwitness.History;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Service.Calls;
using Portwitness.Service.Doors;
using Portwitness.Service.Translation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service;

/// <summary>The gRPC service: translates a request, calls the analysis, translates the answer.</summary>
/// <param name="limits">What is accepted.</param>
/// <param name="logger">Where log messages go.</param>
/// <param name="store">Where reports are kept; null when they are not.</param>
public sealed class WitnessService(ServiceLimits limits, ILogger<WitnessService> logger, IReportStore? store = null) : Wire.Witness.WitnessBase
{
    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Submitters)]
    public override Task Decode(
        IAsyncStreamReader<Wire.DecodeRequest> requestStream,
        IServerStreamWriter<Wire.DecodeResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Decode), context, async () =>
        {
            DecodeCall call = new(limits, requestStream, responseStream, context.CancellationToken);
            (CaptureAnalysis analysis, long bytes) = await call.RunAsync();
            Log.Decoded(logger, bytes, analysis.MessageCount, analysis.Findings.Length);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Submitters)]
    public override Task Convert(
        IAsyncStreamReader<Wire.ConvertRequest> requestStream,
        IServerStreamWriter<Wire.ConvertResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Convert), context, async () =>
        {
            using ConvertCall call = new(limits, requestStream, responseStream, context.CancellationToken);
            (Wire.Conversion conversion, long bytes) = await call.RunAsync();
            Log.Converted(logger, bytes, conversion.Written.Sum(count => count.Count), conversion.Faults.Count);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Submitters)]
    public override Task Check(
        IAsyncStreamReader<Wire.CheckRequest> requestStream,
        IServerStreamWriter<Wire.CheckResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Check), context, async () =>
        {
            using CheckCall call = new(limits, store, requestStream, responseStream, context.CancellationToken);
            (ProductAnalysis analysis, int files) = await call.RunAsync();
            Log.Checked(logger, files, analysis.Findings.Length, analysis.Verdict.ToString());
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Submitters)]
    public override Task<Wire.ReadLabelResponse> ReadLabel(Wire.ReadLabelRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ReadLabel), context, () =>
        {
            InvalidRequest invalid = new();
            invalid.CheckText("text", request.Text, limits);
            invalid.ThrowIfAny();
            Label label = LabelReader.Read(request.Text);
            Log.LabelRead(logger, request.Text.Length, label.Outputs.Length, label.Unread.Length + label.UnlistedUnread);
            Wire.Label read = label.ToContract();
            read.Cautions.AddRange(LabelCautions.Of(label));
            read.Findings.AddRange(PrintedCheck.Of(label, out long unlisted).Select(FindingTranslation.ToContract));
            read.UnlistedFindings = unlisted;
            return Task.FromResult(new Wire.ReadLabelResponse { Label = read });
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Readers)]
    public override Task<Wire.ListRulesResponse> ListRules(Wire.ListRulesRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListRules), context, () =>
        {
            InvalidRequest invalid = new();
            Editions editions = invalid.ReadEdition("edition", request.Edition) ?? Editions.All;
            foreach (string unknown in request.Categories.Where(category => !RuleCatalogue.Categories.Contains(category)).Take(1))
            {
                invalid.Add("categories", $"not a category; expected {string.Join(", ", RuleCatalogue.Categories)}.");
            }

            invalid.ThrowIfAny();
            Wire.ListRulesResponse response = new();
            response.Rules.AddRange(RuleCatalogue.Descriptions
                .Where(rule => request.Name.Length == 0 || rule.Name == request.Name)
                .Where(rule => request.Categories.Count == 0 || request.Categories.Contains(rule.Category))
                .Where(rule => request.Severities.Count == 0 || request.Severities.Contains(rule.Severity.ToContract()))
                .Where(rule => (rule.Editions & editions) != 0)
                .Select(rule => rule.ToContract()));
            return request.Name.Length > 0 && !RuleCatalogue.Names.Contains(request.Name)
                ? throw new RpcException(new Status(StatusCode.NotFound, "No rule has that name."))
                : Task.FromResult(response);
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Submitters)]
    public override Task Synthesize(
        Wire.SynthesizeRequest request, IServerStreamWriter<Wire.SynthesizeResponse> responseStream, ServerCallContext context) =>
        AnswerAsync(nameof(Synthesize), context, async () =>
        {
            InvalidRequest invalid = new();
            invalid.CheckName("file", request.File, limits);
            invalid.CheckText("text", request.Text, limits);
            (CaptureFormat? format, bool packed) = invalid.ReadFormat("to", request.To.Length == 0 ? "jsonl" : request.To, limits);
            invalid.ThrowIfAny();
            SynthesisScript script = ScriptReader.Read(request.Text);
            await responseStream.WriteScriptAsync(script, request.File, format!, packed, context.CancellationToken);
            Log.Synthesized(logger, request.Text.Length, script.Records, script.Faults.Length);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Submitters)]
    public override Task Negotiate(
        IAsyncStreamReader<Wire.NegotiateRequest> requestStream,
        IServerStreamWriter<Wire.NegotiateResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Negotiate), context, async () =>
        {
            NegotiateCall call = new(limits, requestStream, responseStream, context.CancellationToken);
            Wire.NegotiationReport report = await call.RunAsync();
            Log.Negotiated(logger, report.Sinks.Count, report.Offers.Count, report.Faults.Count);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Readers)]
    public override Task<Wire.ListSinksResponse> ListSinks(Wire.ListSinksRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListSinks), context, () =>
        {
            Wire.ListSinksResponse response = new();
            response.Sinks.AddRange(ShippedSinks.All.Select(SinkTranslation.ToContract));
            response.Policies.AddRange(SinkPolicy.All.Select(SinkTranslation.ToContract));
            return Task.FromResult(response);
        });

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Readers)]
    public override Task<Wire.ListReportsResponse> ListReports(Wire.ListReportsRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListReports), context, () => new HistoryCalls(store, limits).ListAsync(request, context.CancellationToken));

    /// <inheritdoc/>
    [Authorize(Roles = DoorRoles.Readers)]
    public override Task<Wire.ProductReport> GetReport(Wire.GetReportRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(GetReport), context, () => new HistoryCalls(store, limits).GetAsync(request, context.CancellationToken));

    private async Task<T> AnswerAsync<T>(string call, ServerCallContext context, Func<Task<T>> answer)
    {
        try
        {
            return await answer();
        }
        catch (RpcException exception)
        {
            Log.Refused(logger, exception.Status.Detail);
            throw;
        }
        catch (Exception exception) when (context.CancellationToken.IsCancellationRequested)
        {
            Log.ClientLeft(logger, call);
            throw new RpcException(new Status(StatusCode.Cancelled, "The client went away.", exception));
        }
        catch (Exception exception) when (exception is not OperationCanceledException)
        {
            Log.Failed(logger, call, exception);
            throw new RpcException(new Status(
                StatusCode.Internal, $"A fault in Portwitness itself ({exception.GetType().Name}). The input was not judged."));
        }
    }
}
