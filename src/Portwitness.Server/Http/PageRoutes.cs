using System.Globalization;
using System.Text;
using Grpc.Core;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.Cli.Calls;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Reports;
using Portwitness.Reports.Formats;
using Portwitness.Reports.Html;
using Portwitness.Service;
using Portwitness.Service.Calls;
using Portwitness.Service.Hosting;

namespace Portwitness.Server.Http;

/// <summary>Pages for people: the list of reports, and each report in every format.</summary>
internal static class PageRoutes
{
    private const int MaxAsked = 200;
    private const string Html = "text/html; charset=utf-8";

    /// <summary>Adds them.</summary>
    public static void Map(WebApplication app)
    {
        AuthorizeAttribute readers = new() { Roles = ServiceHost.ReaderRoles };
        app.MapGet("/", ListAsync).RequireAuthorization(readers);
        app.MapGet("/reports/{id:long}", static (HttpContext context, long id) => ShowAsync(context, id, "html")).RequireAuthorization(readers);
        app.MapGet("/reports/{id:long}/{format}", static (HttpContext context, long id, string format) => ShowAsync(context, id, format)).RequireAuthorization(readers);
    }

    private static async Task ListAsync(HttpContext context)
    {
        string product = Asked(context, "product");
        string verdict = Asked(context, "verdict");
        ListReportsRequest request = new()
        {
            Product = product, PageToken = Asked(context, "page_token"),
            Verdict = verdict switch
            {
                "holds" => Verdict.Holds,
                "fails" => Verdict.Fails,
                "cannot_tell" => Verdict.CannotTell,
                _ => Verdict.Unspecified,
            },
        };
        bool hasStore = context.RequestServices.GetService<IReportStore>() is not null;
        await AnswerAsync(context, Html, null, async client =>
        {
            ListReportsResponse found = hasStore ? await client.ListReportsAsync(request, cancellationToken: context.RequestAborted) : new ListReportsResponse();
            return writer => HistoryPage.Write(writer, found, product, verdict, hasStore);
        });
    }

    private static async Task ShowAsync(HttpContext context, long id, string name)
    {
        if (ReportFormat.All.FirstOrDefault(one => one.Name == name) is not { } format)
        {
            await ProblemAsync(context, StatusCodes.Status404NotFound, $"There is no such format; there are {string.Join(", ", ReportFormat.Names)}.");
            return;
        }

        string? file = format.DrawsPlots ? null : string.Create(CultureInfo.InvariantCulture, $"report-{id}{format.Ending}");
        await AnswerAsync(context, TypeOf(format), file, async client =>
        {
            ProductReport report = await client.GetReportAsync(new GetReportRequest { Id = id }, cancellationToken: context.RequestAborted);
            if (!format.DrawsPlots)
            {
                ReportPlots.Remove(report);
            }

            string source = report.Inputs.Count > 0 ? report.Inputs[0].File : report.Product;
            ReportedProduct product = new(source, false, ReportedProduct.OutcomeOf(report.Verdict, report.Unusable, report.Verdict == Verdict.Fails), () => report);
            ReportSet set = new([product]) { Rules = await RuleList.ForAsync(format, client, context.RequestAborted) };
            return writer => format.Write(writer, set);
        });
    }

    private static async Task AnswerAsync(HttpContext context, string type, string? file, Func<Witness.WitnessClient, Task<Action<TextWriter>>> read)
    {
        Action<TextWriter> write;
        try
        {
            write = await read(new Witness.WitnessClient(new InProcessInvoker(context.RequestServices.GetRequiredService<WitnessService>())));
        }
        catch (RpcException exception)
        {
            await ProblemAsync(context, StatusOf(exception.StatusCode), exception.Status.Detail);
            return;
        }

        Guard(context, type);
        if (file is not null)
        {
            context.Response.Headers.ContentDisposition = $"attachment; filename=\"{file}\"";
        }

        // A whole page is a few hundred kilobytes; what is written at once cannot break in the middle.
        using MemoryStream page = new();
        await using (StreamWriter writer = new(page, new UTF8Encoding(false), leaveOpen: true))
        {
            write(writer);
        }

        context.Response.ContentLength = page.Length;
        page.Position = 0;
        await page.CopyToAsync(context.Response.Body, context.RequestAborted);
    }

    private static Task ProblemAsync(HttpContext context, int status, string words)
    {
        Guard(context, "text/plain; charset=utf-8");
        context.Response.StatusCode = status;
        return context.Response.WriteAsync(words + "\n", context.RequestAborted);
    }

    // The page says itself what it may load; these say it of whatever comes from here.
    private static void Guard(HttpContext context, string type)
    {
        IHeaderDictionary headers = context.Response.Headers;
        context.Response.ContentType = type;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers.CacheControl = "no-store";
        headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";
    }

    private static string Asked(HttpContext context, string name) => context.Request.Query[name].ToString() is { Length: <= MaxAsked } text ? text : "";

    private static string TypeOf(ReportFormat format) => format.Name switch
    {
        "html" => Html,
        "json" or "sarif" => "application/json",
        "junit" => "application/xml",
        "csv-findings" or "csv-offers" => "text/csv; charset=utf-8",
        "markdown" => "text/markdown; charset=utf-8",
        _ => "text/plain; charset=utf-8",
    };

    private static int StatusOf(StatusCode code) => code switch
    {
        StatusCode.NotFound => StatusCodes.Status404NotFound,
        StatusCode.InvalidArgument or StatusCode.FailedPrecondition => StatusCodes.Status400BadRequest,
        StatusCode.Unavailable => StatusCodes.Status503ServiceUnavailable,
        _ => StatusCodes.Status500InternalServerError,
    };
}
